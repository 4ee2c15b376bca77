import type { ReactNode } from 'react';
import { remarkLabels } from '../../words/index.ts';
import type { Placing } from '../readings/geometry/placing.ts';
import { PlacePicker } from '../readings/place-picker.tsx';
import type { Zoom } from '../set/use-zoom.ts';
import type { SizeCssPx, SizeImagePx } from '../viewport/index.ts';
import type { Remarking } from './use-remarking.ts';

interface RemarkPickerProps {
  readonly remarking: Remarking;
  readonly placing: Placing;
  readonly picture: SizeImagePx;
  readonly free: SizeCssPx;
  readonly zoom: Zoom;
}

/** Radius of the ring about the place, CSS px. */
const ring = 15;

/** Lies over the picture while the place of a remark is marked. */
export function RemarkPicker({ remarking, placing, picture, free, zoom }: RemarkPickerProps): ReactNode {
  return (
    <PlacePicker
      label={remarkLabels.pointAt}
      picture={picture}
      free={free}
      zoom={zoom}
      onTake={(at) => remarking.write(placing.toOriginal(at))}
      onLeave={remarking.leave}
    >
      {(at, { left, top, width, height }) => {
        const [x, y] = [left + at.x * width, top + at.y * height];
        const path = `M${x - ring} ${y}a${ring} ${ring} 0 1 0 ${2 * ring} 0a${ring} ${ring} 0 1 0 ${-2 * ring} 0`;
        return (['rim', 'ink'] as const).map((pen) => <path key={pen} className={`spot-${pen}`} d={path} />);
      }}
    </PlacePicker>
  );
}
