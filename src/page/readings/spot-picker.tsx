import type { ReactNode } from 'react';
import type { SharePoint } from '../../facts/index.ts';
import { readingLabels } from '../../words/index.ts';
import { patchFrame } from '../link/index.ts';
import type { Zoom } from '../set/use-zoom.ts';
import type { SizeCssPx, SizeImagePx } from '../viewport/index.ts';
import type { Placing } from './geometry/placing.ts';
import { spotBox } from './geometry/spot-box.ts';
import { atOf, cornersOf } from './laid-pen.ts';
import { PlacePicker } from './place-picker.tsx';
import type { Picking } from './spot-controls.tsx';

interface SpotPickerProps {
  readonly frameId: string;
  readonly picking: Picking;
  readonly onward: boolean;
  readonly placing: Placing;
  readonly picture: SizeImagePx;
  readonly free: SizeCssPx;
  readonly zoom: Zoom;
}

/** Lies over the picture while a spot is pointed out. */
export function SpotPicker({
  frameId,
  picking,
  onward,
  placing,
  picture,
  free,
  zoom,
}: SpotPickerProps): ReactNode {
  const { original, toOriginal } = placing;
  const boxAt = (shown: SharePoint) => {
    const { x, y } = toOriginal(shown);
    return spotBox(x, y, original.width / original.height);
  };
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
      {(at, rect) => {
        const corners = cornersOf(atOf(rect, placing), boxAt(at));
        return (['rim', 'ink'] as const).map((pen) => (
          <polygon
            key={pen}
            className={`spot-${pen}`}
            points={corners.map((corner) => corner.join(',')).join(' ')}
          />
        ));
      }}
    </PlacePicker>
  );
}
