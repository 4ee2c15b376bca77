import { MiB } from '../../base/index.ts';
import type { Orientation } from '../../facts/index.ts';
import { type Inspection, type Preview, pickFirstView } from '../../formats/index.ts';

/** A preview cut out of a file, as it stands there: never decoded or encoded again. */
export interface CutPreview {
  readonly jpeg: Uint8Array;
  /** As stored, before orientation, pixels. */
  readonly widthPx: number;
  readonly heightPx: number;
  readonly orientation: Orientation;
  /** Of the full picture, upright, pixels: the box it is shown in, which the rendering will have too. */
  readonly uprightWidthPx: number;
  readonly uprightHeightPx: number;
}

/** A full-size preview of a 100-megapixel camera is about half of this; nothing larger is taken into memory. */
const previewBytesMax: number = 64 * MiB;

/**
 * The preview to cut out now, or null where there is none better than one of `shownLongEdgePx`. Only JPEG is cut:
 * uncompressed thumbnails are stamps of 160 pixels beside a JPEG that follows.
 */
export function previewToCut(inspection: Inspection, shownLongEdgePx: number): SizedPreview | null {
  const jpegs = inspection.previews.filter(
    ({ compression, length }) => compression === 'jpeg' && length <= previewBytesMax,
  );
  const best = pickFirstView(jpegs);
  if (best === null || !hasSize(best)) return null;
  return Math.max(best.widthPx, best.heightPx) > shownLongEdgePx ? best : null;
}

export type SizedPreview = Preview & { readonly widthPx: number; readonly heightPx: number };

function hasSize(preview: Preview): preview is SizedPreview {
  return (preview.widthPx ?? 0) > 0 && (preview.heightPx ?? 0) > 0;
}

/** The preview with everything a page needs to place it. */
export function cutPreview(jpeg: Uint8Array, preview: SizedPreview, inspection: Inspection): CutPreview {
  const orientation = orientationOf(inspection.tags.orientation);
  const width = inspection.pictureWidthPx ?? preview.widthPx;
  const height = inspection.pictureHeightPx ?? preview.heightPx;
  const turned = orientation >= 5;
  return {
    jpeg,
    widthPx: preview.widthPx,
    heightPx: preview.heightPx,
    orientation,
    uprightWidthPx: turned ? height : width,
    uprightHeightPx: turned ? width : height,
  };
}

/** Exif 2.32: any other value than 1 to 8 means nothing was said. */
export function orientationOf(tag: number | undefined): Orientation {
  const known: readonly Orientation[] = [1, 2, 3, 4, 5, 6, 7, 8];
  return known.find((value) => value === tag) ?? 1;
}
