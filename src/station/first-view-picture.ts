import type { FramePicture } from '../contract/index.ts';
import type { FrameRow } from '../register/index.ts';
import type { CutPreview } from './core/first-view.ts';
import { pictureVersion } from './render-source.ts';

/** A frame's picture while it is shown by a preview out of its arriving file. */
export function firstViewPicture(
  row: FrameRow,
  preview: CutPreview,
  arrivedShare: number | null,
): FramePicture & {
  state: 'first-view';
} {
  return {
    state: 'first-view',
    width: preview.uprightWidthPx,
    height: preview.uprightHeightPx,
    orientation: preview.orientation,
    previewWidth: preview.widthPx,
    previewHeight: preview.heightPx,
    arrivedShare,
    version: pictureVersion(row) + 1,
  };
}

/** How much of a file is here, 0 to 1; null where nobody knows how much is to come. */
export function shareOf(
  live: { readonly bytes: number; readonly expectedBytes: number | null } | null,
): number | null {
  if (live === null || live.expectedBytes === null || live.expectedBytes <= 0) return null;
  return Math.min(1, live.bytes / live.expectedBytes);
}
