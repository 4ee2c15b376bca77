import { type PointerEvent, type ReactNode, useRef, useState } from 'react';
import { lookLabels } from '../../../words/index.ts';

/** A line by its two ends, shares of the picture's box. */
export type DrawnLine = readonly [x0: number, y0: number, x1: number, y1: number];

interface LineDrawerProps {
  readonly onLines: (lines: readonly [DrawnLine, DrawnLine]) => void;
}

/** A press that moves less far than this share of the box draws nothing: the schema asks for a twentieth. */
const shortest = 0.06;

/** Lies over the picture while two parallels are drawn along its edges. */
export function LineDrawer({ onLines }: LineDrawerProps): ReactNode {
  const [first, setFirst] = useState<DrawnLine | null>(null);
  const [now, setNow] = useState<DrawnLine | null>(null);
  const field = useRef<SVGSVGElement>(null);
  const place = (event: PointerEvent): readonly [number, number] => {
    const rect = field.current?.getBoundingClientRect();
    if (rect === undefined) return [0, 0];
    const held = (value: number): number => Math.min(1, Math.max(0, value));
    return [held((event.clientX - rect.left) / rect.width), held((event.clientY - rect.top) / rect.height)];
  };
  const end = (): void => {
    if (now === null) return;
    const [x0, y0, x1, y1] = now;
    setNow(null);
    if (Math.hypot(x1 - x0, y1 - y0) < shortest) return;
    if (first === null) setFirst(now);
    else onLines([first, now]);
  };
  return (
    <svg
      ref={field}
      className="line-field"
      viewBox="0 0 1 1"
      preserveAspectRatio="none"
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        const [x, y] = place(event);
        setNow([x, y, x, y]);
      }}
      onPointerMove={(event) => {
        if (now === null) return;
        const [x, y] = place(event);
        setNow([now[0], now[1], x, y]);
      }}
      onPointerUp={end}
      onPointerCancel={() => setNow(null)}
    >
      <title>{lookLabels.drawingLines}</title>
      {[first, now].map((line) =>
        line === null ? null : (
          <line key={line.join(' ')} x1={line[0]} y1={line[1]} x2={line[2]} y2={line[3]} />
        ),
      )}
    </svg>
  );
}
