import { type KeyboardEvent, type PointerEvent, type ReactNode, useEffect, useRef, useState } from 'react';
import { readingLabels } from '../../words/index.ts';
import { patchFrame } from '../link/index.ts';
import { useDevicePixelRatio } from '../set/use-media.ts';
import { useView, type Zoom } from '../set/use-zoom.ts';
import type { SizeCssPx, SizeImagePx } from '../viewport/index.ts';
import { clamp } from './geometry/plot-scale.ts';
import { spotBox } from './geometry/spot-box.ts';
import { rectOf } from './laid-rect.ts';
import type { Picking } from './spot-controls.tsx';

interface SpotPickerProps {
  readonly frameId: string;
  readonly picking: Picking;
  readonly onward: boolean;
  readonly picture: SizeImagePx;
  readonly free: SizeCssPx;
  readonly zoom: Zoom;
}

/** Of the picture, for one press of an arrow. */
const stepShare = 0.01;

/** Lies over the picture while a spot is pointed out: a click takes a place, or the arrows and Enter do. */
export function SpotPicker({ frameId, picking, onward, picture, free, zoom }: SpotPickerProps): ReactNode {
  const unit = useDevicePixelRatio();
  const view = useView(zoom.motion);
  const button = useRef<HTMLButtonElement>(null);
  const [at, setAt] = useState({ x: 0.5, y: 0.5 });
  useEffect(() => button.current?.focus(), []);
  const rect = rectOf(view, zoom.motion.stage, picture, free, unit);
  const box = spotBox(at.x, at.y, picture.widthPx / picture.heightPx);
  const css = (share: number, from: number, size: number): number => (from + share * size) / unit;

  const take = (x: number, y: number): void => {
    picking.set(false);
    const spot = { box: spotBox(x, y, picture.widthPx / picture.heightPx), onward };
    // What it changed comes as an event; a station that said no is seen by the spot that stays where it was.
    patchFrame(frameId, { spot }).catch(() => undefined);
  };
  const placeOf = (event: PointerEvent): { x: number; y: number } => {
    const { left, top } = event.currentTarget.getBoundingClientRect();
    return {
      x: clamp(((event.clientX - left) * unit - rect.left) / rect.width, 0, 1),
      y: clamp(((event.clientY - top) * unit - rect.top) / rect.height, 0, 1),
    };
  };
  const press = (event: KeyboardEvent): void => {
    const by = arrows[event.key];
    if (by !== undefined) setAt(({ x, y }) => ({ x: clamp(x + by[0], 0, 1), y: clamp(y + by[1], 0, 1) }));
    else if (event.key === 'Enter' || event.key === ' ') take(at.x, at.y);
    else if (event.key === 'Escape') picking.set(false);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <button
      ref={button}
      type="button"
      className="spot-picker"
      aria-label={readingLabels.pickSpot}
      onKeyDown={press}
      onPointerMove={(event) => setAt(placeOf(event))}
      onPointerUp={(event) => {
        const { x, y } = placeOf(event);
        take(x, y);
      }}
    >
      <svg aria-hidden="true">
        {(['rim', 'ink'] as const).map((pen) => (
          <rect
            key={pen}
            className={`spot-${pen}`}
            x={css(box.left, rect.left, rect.width)}
            y={css(box.top, rect.top, rect.height)}
            width={((box.right - box.left) * rect.width) / unit}
            height={((box.bottom - box.top) * rect.height) / unit}
          />
        ))}
      </svg>
    </button>
  );
}

const arrows: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-stepShare, 0],
  ArrowRight: [stepShare, 0],
  ArrowUp: [0, -stepShare],
  ArrowDown: [0, stepShare],
};
