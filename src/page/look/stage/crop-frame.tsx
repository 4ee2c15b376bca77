import { type KeyboardEvent, type PointerEvent, type ReactNode, useRef } from 'react';
import type { Size } from '../../../image/index.ts';
import type { Look } from '../../../look/index.ts';
import { lookLabels } from '../../../words/index.ts';
import { arrowStep } from '../../viewport/arrow-step.ts';
import { type Corner, type Crop, cropBox, movedCrop, scaledCrop, sizedCrop } from './crop-place.ts';
import { useFocusMeanwhile } from './use-focus-meanwhile.ts';

export interface CropFrameProps {
  readonly geometry: Look['geometry'];
  readonly full: Size;
  readonly onCrop: (crop: Crop) => void;
  /** The hand has let go: what was done since it took hold is one step back. */
  readonly onLetGo: () => void;
  readonly onLeave: () => void;
}

const corners: readonly Corner[] = [
  { x: -1, y: -1 },
  { x: 1, y: -1 },
  { x: -1, y: 1 },
  { x: 1, y: 1 },
];
/** What + makes it larger by. */
const keyScale = 1.05;

/** What the hand took hold of, and how everything lay then: from there all is counted, so that nothing adds up. */
interface Held {
  readonly corner: Corner | null;
  readonly x: number;
  readonly y: number;
  readonly geometry: Look['geometry'];
}

/** The crop over the whole picture: drawn along by its middle, sized by its corners, or both by keys. */
export function CropFrame({ geometry, full, onCrop, onLetGo, onLeave }: CropFrameProps): ReactNode {
  const field = useRef<HTMLDivElement>(null);
  const frame = useRef<HTMLButtonElement>(null);
  const held = useRef<Held | null>(null);
  useFocusMeanwhile(frame);
  const box = cropBox(geometry, full);
  const put = (crop: Crop | null): void => {
    if (crop !== null) onCrop(crop);
  };
  const placeOf = (event: PointerEvent): readonly [number, number] => {
    const rect = field.current?.getBoundingClientRect();
    if (rect === undefined) return [0, 0];
    return [(event.clientX - rect.left) / rect.width, (event.clientY - rect.top) / rect.height];
  };
  const letGo = (): void => {
    if (held.current !== null) onLetGo();
    held.current = null;
  };
  const handlers = (corner: Corner | null) => ({
    onPointerDown: (event: PointerEvent) => {
      if (event.button !== 0) return;
      event.stopPropagation();
      event.currentTarget.setPointerCapture(event.pointerId);
      const [x, y] = placeOf(event);
      held.current = { corner, x, y, geometry };
    },
    onPointerMove: (event: PointerEvent) => {
      const from = held.current;
      if (from === null || from.corner !== corner) return;
      event.stopPropagation();
      const [x, y] = placeOf(event);
      if (corner === null) put(movedCrop(from.geometry, full, x - from.x, y - from.y));
      else {
        const lay = cropBox(from.geometry, full);
        // Not the hand's place but its way: it may have taken hold a little beside the corner.
        const atX = (corner.x > 0 ? lay.right : lay.left) + x - from.x;
        const atY = (corner.y > 0 ? lay.bottom : lay.top) + y - from.y;
        put(sizedCrop(from.geometry, full, corner, atX, atY));
      }
    },
    onPointerUp: letGo,
    onPointerCancel: letGo,
  });
  const keys = (event: KeyboardEvent): void => {
    if (event.key === 'Escape' || event.key === 'Enter') {
      event.preventDefault();
      onLeave();
      return;
    }
    const [right, down] = arrowStep(event);
    if (right !== 0 || down !== 0) put(movedCrop(geometry, full, right, down));
    else if (event.key === '+' || event.key === '=') put(scaledCrop(geometry, keyScale));
    else if (event.key === '-') put(scaledCrop(geometry, 1 / keyScale));
    else return;
    event.preventDefault();
  };
  const percent = (share: number): string => `${share * 100}%`;
  return (
    <div className="crop-field" ref={field}>
      <div
        className="crop-frame"
        style={{
          left: percent(box.left),
          top: percent(box.top),
          width: percent(box.right - box.left),
          height: percent(box.bottom - box.top),
        }}
      >
        <button
          ref={frame}
          type="button"
          className="crop-hold"
          aria-label={lookLabels.croppingHere}
          onKeyDown={keys}
          onKeyUp={onLetGo}
          {...handlers(null)}
        />
        {corners.map((corner) => (
          <span
            key={`${corner.x} ${corner.y}`}
            className="crop-corner"
            data-x={corner.x}
            data-y={corner.y}
            aria-hidden="true"
            {...handlers(corner)}
          />
        ))}
      </div>
    </div>
  );
}
