import type { ShotScale } from '../../facts/index.ts';
import type { FrameRow } from '../../register/index.ts';
import { pictureOfRow } from '../picture-of-row.ts';

/** Settings of a zoom that are told with less difference than this are one. */
const sameFocalShare = 0.01;

/**
 * What one pixel of the frame at full size is on the set, mm. Null where nobody told it, for another camera, at another
 * focal length, and while its size is not known.
 */
export function mmPerPxOf(
  { picture, capture, camera }: Pick<FrameRow, 'picture' | 'capture' | 'camera'>,
  scale: ShotScale | null,
): number | null {
  const shown = pictureOfRow({ picture });
  if (scale === null || scale.camera !== camera || shown.state !== 'rendered') return null;
  const focal = capture?.focalLengthMm ?? null;
  if (focal !== null && scale.focalLengthMm !== null) {
    if (Math.abs(focal / scale.focalLengthMm - 1) > sameFocalShare) return null;
  }
  // Readings are of the whole original, whatever its look shows of it.
  const { width, height } = shown.original ?? shown;
  const longSidePx = Math.max(width, height);
  return ((scale.mm / scale.px) * scale.longSidePx) / longSidePx;
}
