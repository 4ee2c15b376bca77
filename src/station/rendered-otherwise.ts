import type { FrameRow } from '../register/index.ts';
import { pictureOfRow } from './picture-of-row.ts';
import type { FrameLimits } from './readings/frame-limits.ts';

/**
 * Whether a raw was rendered with another look than is in force for it now, or by another target than counts, or by none
 * where one does, or noted before it was told where its look placed it: two targets that say the same are two all the same, since the page names the one.
 */
export function isRenderedOtherwise(
  row: Pick<FrameRow, 'picture'>,
  { balance, look }: Pick<FrameLimits, 'balance' | 'look'>,
): boolean {
  const picture = pictureOfRow(row);
  if (picture.state !== 'rendered' || picture.source !== 'raw') return false;
  const { target, original } = picture;
  if (original !== null && original.toOriginal === null) return true;
  return picture.look !== look.hash || target?.frame !== balance?.frame || target?.profile !== balance?.hash;
}
