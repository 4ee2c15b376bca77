import { planSurround, type Specification, specificationNamed } from '../../deliver/index.ts';
import {
  type CopySpace,
  type CopySpaceSide,
  copySpaceShareUsual,
  type ShareBox,
  type SharePoint,
} from '../../facts/index.ts';
import { cropOf, type PartShares, type SizeImagePx } from '../viewport/index.ts';
import type { Crop } from './crop-choice.ts';

/** What is laid over a picture. */
export interface Mask {
  /** What is delivered, shares of the picture; null for all of it. */
  readonly crop: PartShares | null;
  readonly copySpace: CopySpace | null;
}

/**
 * `picture`: upright, as its look shows it; `subject`: in shares of that, null where it is not told. A side for words that somebody
 * chose by hand goes before the delivery's own.
 */
export function maskOf(
  crop: Crop,
  byHand: CopySpaceSide | null,
  picture: SizeImagePx,
  subject: ShareBox | null,
): Mask {
  const own =
    crop !== null && 'delivery' in crop ? specificationNamed(crop.delivery)?.specification.copySpace : null;
  return {
    crop: cropIn(crop, picture, subject),
    copySpace: byHand === null ? (own ?? null) : { side: byHand, sharePercent: copySpaceShareUsual },
  };
}

/** What of the picture is delivered, shares of it; null for all of it, and for a specification that nobody knows. */
export function cropIn(crop: Crop, picture: SizeImagePx, subject: ShareBox | null): PartShares | null {
  if (crop === null) return null;
  if (!('delivery' in crop)) return cropOf(picture, crop.width / crop.height);
  const specification = specificationNamed(crop.delivery)?.specification;
  return specification === undefined ? null : cropOfDelivery(specification, picture, subject);
}

/** Whether a backdrop is plain to the edge is told when the file is made; until then it is taken to be. */
const plain = { left: true, top: true, right: true, bottom: true };

/**
 * What a delivery would cut out, so that one sees what will be there; null where that is all of the picture. What is put around a
 * picture takes nothing away from it.
 */
export function cropOfDelivery(
  { size, enlarge, background }: Pick<Specification, 'size' | 'enlarge' | 'background'>,
  picture: SizeImagePx,
  subject: ShareBox | null,
): PartShares | null {
  const mayExtend = background.kind === 'white' && background.extend;
  const { window } = planSurround(picture, { subject, plain }, { size, enlarge, mayExtend });
  const left = Math.max(0, window.leftPx / picture.widthPx);
  const top = Math.max(0, window.topPx / picture.heightPx);
  const right = Math.min(1, (window.leftPx + window.widthPx) / picture.widthPx);
  const bottom = Math.min(1, (window.topPx + window.heightPx) / picture.heightPx);
  if (left === 0 && top === 0 && right === 1 && bottom === 1) return null;
  return { left, top, width: right - left, height: bottom - top };
}

/** A box of the original where its look shows it, shares of the picture shown; null where it shows nothing of it. */
export function boxShown(box: ShareBox, toShown: (at: SharePoint) => SharePoint): ShareBox | null {
  const corners = [
    toShown({ x: box.left, y: box.top }),
    toShown({ x: box.right, y: box.top }),
    toShown({ x: box.right, y: box.bottom }),
    toShown({ x: box.left, y: box.bottom }),
  ];
  const [xs, ys] = [corners.map(({ x }) => x), corners.map(({ y }) => y)];
  const within = (share: number): number => Math.max(0, Math.min(1, share));
  const shown = {
    left: within(Math.min(...xs)),
    top: within(Math.min(...ys)),
    right: within(Math.max(...xs)),
    bottom: within(Math.max(...ys)),
  };
  return shown.right > shown.left && shown.bottom > shown.top ? shown : null;
}
