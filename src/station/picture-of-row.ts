import { type FramePicture, framePicture } from '../contract/index.ts';
import type { FrameRow } from '../register/index.ts';

/** How a frame can be shown; `none` while nothing is known of it. */
export function pictureOfRow(row: Pick<FrameRow, 'picture'>): FramePicture {
  const known = framePicture.safeParse(row.picture);
  return known.success ? known.data : { state: 'none' };
}
