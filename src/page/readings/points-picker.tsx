import type { ReactNode } from 'react';
import { readingLabels } from '../../words/index.ts';
import type { Zoom } from '../set/use-zoom.ts';
import type { SizeCssPx, SizeImagePx } from '../viewport/index.ts';
import type { Placing } from './geometry/placing.ts';
import { PlacePicker } from './place-picker.tsx';
import type { Measuring } from './use-measuring.ts';

interface PointsPickerProps {
  readonly measuring: Measuring;
  /** Points are places of the original. */
  readonly placing: Placing;
  readonly picture: SizeImagePx;
  readonly free: SizeCssPx;
  readonly zoom: Zoom;
}

/** Half of a cross about a point, CSS px. */
const arm = 11;
/** A few pixels of a large picture: what is measured between two points is as true as they are. */
const pointStepShare = 0.0005;

/** Lies over the picture while two points of a known distance are marked on it. */
export function PointsPicker({ measuring, placing, picture, free, zoom }: PointsPickerProps): ReactNode {
  const { points, mark, leave } = measuring;
  return (
    <PlacePicker
      key={points.length}
      label={points.length === 0 ? readingLabels.pickFirstPoint : readingLabels.pickSecondPoint}
      picture={picture}
      free={free}
      zoom={zoom}
      stepShare={pointStepShare}
      onTake={(at) => mark(placing.toOriginal(at))}
      onLeave={leave}
    >
      {(at, { left, top, width, height }) => {
        const [begun] = points;
        const from = begun === undefined ? undefined : placing.toShown(begun);
        const ends = from === undefined ? [at] : [from, at];
        const path = `${ends.map((end) => cross(left + end.x * width, top + end.y * height)).join('')}${
          from === undefined
            ? ''
            : `M${left + from.x * width} ${top + from.y * height}L${left + at.x * width} ${top + at.y * height}`
        }`;
        return (['rim', 'ink'] as const).map((pen) => <path key={pen} className={`spot-${pen}`} d={path} />);
      }}
    </PlacePicker>
  );
}

/** Open in the middle: what is pointed at is seen. */
function cross(x: number, y: number): string {
  const gap = 3;
  return `M${x - arm} ${y}H${x - gap}M${x + gap} ${y}H${x + arm}M${x} ${y - arm}V${y - gap}M${x} ${y + gap}V${y + arm}`;
}
