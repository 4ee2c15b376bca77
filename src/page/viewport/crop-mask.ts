import type { CopySpace } from '../../facts/index.ts';
import type { SizeImagePx } from './fit-box.ts';

/** A part of the picture, shares of its width and height. */
export interface PartShares {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** The largest part of this shape (width by height) in the middle of a picture. */
export function cropOf({ widthPx, heightPx }: SizeImagePx, shape: number): PartShares {
  const own = widthPx / heightPx;
  const [width, height] = shape < own ? [shape / own, 1] : [1, own / shape];
  return { left: (1 - width) / 2, top: (1 - height) / 2, width, height };
}

/** The part of a crop where words will stand. */
export function copySpaceIn(
  { left, top, width, height }: PartShares,
  { side, sharePercent }: CopySpace,
): PartShares {
  const share = sharePercent / 100;
  if (side === 'top' || side === 'bottom') {
    const own = height * share;
    return { left, top: side === 'top' ? top : top + height - own, width, height: own };
  }
  const own = width * share;
  return { left: side === 'left' ? left : left + width - own, top, width: own, height };
}
