import { type KeyboardEvent, type MouseEvent, type ReactNode, useEffect, useRef, useState } from 'react';
import type { SharePoint } from '../../facts/index.ts';
import { useDevicePixelRatio } from '../set/use-media.ts';
import { useView, type Zoom } from '../set/use-zoom.ts';
import { arrowStep, type SizeCssPx, type SizeImagePx } from '../viewport/index.ts';
import { clamp } from './geometry/plot-scale.ts';
import { rectOf } from './laid-rect.ts';

/** Where the picture lies in the free space, CSS px. */
export interface PictureRect {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

interface PlacePickerProps {
  /** What is pointed at and how, for who does not see it. */
  readonly label: string;
  readonly picture: SizeImagePx;
  readonly free: SizeCssPx;
  readonly zoom: Zoom;
  /** Of the picture, for one press of an arrow. */
  readonly stepShare?: number;
  readonly onTake: (at: SharePoint) => void;
  readonly onLeave: () => void;
  /** Draws what is pointed at. */
  readonly children: (at: SharePoint, rect: PictureRect) => ReactNode;
}

/** Lies over the picture while a place on it is pointed out: a click takes it, or the arrows and Enter do. */
export function PlacePicker({
  label,
  picture,
  free,
  zoom,
  stepShare,
  onTake,
  onLeave,
  children,
}: PlacePickerProps): ReactNode {
  const unit = useDevicePixelRatio();
  const view = useView(zoom.motion);
  const button = useRef<HTMLButtonElement>(null);
  const [at, setAt] = useState<SharePoint>({ x: 0.5, y: 0.5 });
  useEffect(() => button.current?.focus(), []);
  const rect = rectOf(view, zoom.motion.stage, picture, free, unit);
  const placeOf = (event: MouseEvent): SharePoint => {
    const { left, top } = event.currentTarget.getBoundingClientRect();
    return {
      x: clamp(((event.clientX - left) * unit - rect.left) / rect.width, 0, 1),
      y: clamp(((event.clientY - top) * unit - rect.top) / rect.height, 0, 1),
    };
  };
  const press = (event: KeyboardEvent): void => {
    const [right, down] = arrowStep(event, stepShare);
    if (right !== 0 || down !== 0)
      setAt(({ x, y }) => ({ x: clamp(x + right, 0, 1), y: clamp(y + down, 0, 1) }));
    else if (event.key === 'Enter' || event.key === ' ') onTake(at);
    else if (event.key === 'Escape') onLeave();
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <button
      ref={button}
      type="button"
      className="spot-picker"
      aria-label={label}
      onKeyDown={press}
      onPointerMove={(event) => setAt(placeOf(event))}
      // Not on pointerup: what is shown next may want the focus, and a press gives it to what lies below the pointer until
      // the click is through. A click without a pointer (of a screen reader) takes what is marked.
      onClick={(event) => onTake(event.detail === 0 ? at : placeOf(event))}
    >
      <svg aria-hidden="true">
        {children(at, {
          left: rect.left / unit,
          top: rect.top / unit,
          width: rect.width / unit,
          height: rect.height / unit,
        })}
      </svg>
    </button>
  );
}
