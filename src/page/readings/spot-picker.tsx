import type { ReactNode } from 'react';
import type { SharePoint } from '../../facts/index.ts';
import { readingLabels } from '../../words/index.ts';
import { patchFrame } from '../link/index.ts';
import type { Zoom } from '../set/use-zoom.ts';
import type { SizeCssPx, SizeImagePx } from '../viewport/index.ts';
import { spotBox } from './geometry/spot-box.ts';
import { PlacePicker } from './place-picker.tsx';
import type { Picking } from './spot-controls.tsx';

interface SpotPickerProps {
  readonly frameId: string;
  readonly picking: Picking;
  readonly onward: boolean;
  readonly picture: SizeImagePx;
  readonly free: SizeCssPx;
  readonly zoom: Zoom;
}

/** Lies over the picture while a spot is pointed out. */
export function SpotPicker({ frameId, picking, onward, picture, free, zoom }: SpotPickerProps): ReactNode {
  const boxAt = ({ x, y }: SharePoint) => spotBox(x, y, picture.widthPx / picture.heightPx);
  const take = (at: SharePoint): void => {
    picking.set(false);
    // What it changed comes as an event; a station that said no is seen by the spot that stays where it was.
    patchFrame(frameId, { spot: { box: boxAt(at), onward } }).catch(() => undefined);
  };
  return (
    <PlacePicker
      label={readingLabels.pickSpot}
      picture={picture}
      free={free}
      zoom={zoom}
      onTake={take}
      onLeave={() => picking.set(false)}
    >
      {(at, { left, top, width, height }) => {
        const box = boxAt(at);
        return (['rim', 'ink'] as const).map((pen) => (
          <rect
            key={pen}
            className={`spot-${pen}`}
            x={left + box.left * width}
            y={top + box.top * height}
            width={(box.right - box.left) * width}
            height={(box.bottom - box.top) * height}
          />
        ));
      }}
    </PlacePicker>
  );
}
