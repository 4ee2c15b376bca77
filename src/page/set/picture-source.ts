import type { Frame } from '../../contract/index.ts';
import type { Orientation } from '../../facts/index.ts';
import { firstViewAddress, pictureAddress } from '../link/index.ts';
import { fitBox, type SizeCssPx, type SizeImagePx, widthToAsk } from '../viewport/index.ts';

/** Where the picture of a frame is to be had, and how it comes. */
export interface PictureSource {
  readonly address: string;
  /** Still to be applied by the page. */
  readonly orientation: Orientation;
  /** The upright picture at full size; null where nobody knows it before the preview is decoded. */
  readonly full: SizeImagePx | null;
  readonly kind: 'first-view' | 'rendered' | 'cannot';
}

/** The best picture there is of a frame now, or null where there is none. */
export function pictureSource(frame: Frame, free: SizeCssPx, devicePixelRatio: number): PictureSource | null {
  const { id, picture } = frame;
  switch (picture.state) {
    case 'none':
      return null;
    case 'first-view':
      return {
        address: firstViewAddress(id, picture.version),
        orientation: asOrientation(picture.orientation),
        full: { widthPx: picture.width, heightPx: picture.height },
        kind: 'first-view',
      };
    case 'rendered': {
      const full = { widthPx: picture.width, heightPx: picture.height };
      const width = widthToAsk(fitBox(full, free, devicePixelRatio), full);
      return { address: pictureAddress(id, width, picture.version), orientation: 1, full, kind: 'rendered' };
    }
    case 'cannot':
      return picture.preview
        ? {
            address: firstViewAddress(id, picture.version),
            orientation: asOrientation(picture.orientation ?? 1),
            full:
              picture.width === null || picture.height === null
                ? null
                : { widthPx: picture.width, heightPx: picture.height },
            kind: 'cannot',
          }
        : null;
  }
}

const orientations: readonly Orientation[] = [1, 2, 3, 4, 5, 6, 7, 8];

/** The contract bounds it to 1 to 8; anything else is shown as stored. */
function asOrientation(value: number): Orientation {
  return orientations.find((known) => known === value) ?? 1;
}
