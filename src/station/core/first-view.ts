import { KiB, MiB } from '../../base/index.ts';
import type { Orientation } from '../../facts/index.ts';
import {
  type ByteRange,
  firstViewLongEdgePx,
  type Inspection,
  type Preview,
  pickFirstView,
} from '../../formats/index.ts';

/** A view cut out of a file, as it stands there: never decoded or encoded again. */
export interface CutPreview {
  readonly jpeg: Uint8Array;
  /** False for a JPEG that is still arriving: what is missing of it is grey. */
  readonly complete: boolean;
  /** As stored, before orientation, pixels. */
  readonly widthPx: number;
  readonly heightPx: number;
  readonly orientation: Orientation;
  /** Of the full picture, upright, pixels: the box it is shown in, which the rendering will have too. */
  readonly uprightWidthPx: number;
  readonly uprightHeightPx: number;
}

/** What to cut out of a file. */
export interface ViewCut {
  readonly range: ByteRange;
  readonly complete: boolean;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** By what one view is better than another. */
export interface ViewRank {
  readonly complete: boolean;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly bytes: number;
}

/** A full-size preview of a 100-megapixel camera is about half of this; nothing larger is taken into memory. */
export const viewBytesMax: number = 64 * MiB;

/**
 * The page decodes a view in one piece: four bytes a pixel, so 440 MB for this. A 100-megapixel camera's full-size preview
 * is below it; a larger one in a few compressed bytes would be a trap.
 */
export const viewPixelsMax = 110_000_000;

/**
 * A JPEG that is arriving is cut again when it has grown by a third, and by this at least: ten or so cuts on the way to
 * 10 MB, each worth the page's decoding it.
 */
export const partStepBytes: number = 256 * KiB;
const partStepShare = 1 / 3;

/**
 * A stamp shows all of the picture, the first part of a large one only its top. It gives way when about a quarter can
 * be expected there: cameras write 0.15 to 0.5 bytes per pixel (common practice, no source).
 */
export const stampGivesWayBytesPerPx: number = 1 / 16;

/** The view to cut out now, or null where there is none better than the one `shown`. */
export function viewToCut(inspection: Inspection, shown: ViewRank | null): ViewCut | null {
  let best: ViewCut | null = null;
  for (const cut of [previewCut(inspection), partCut(inspection)]) {
    if (cut !== null && isBetterView(rankOfCut(cut), best === null ? shown : rankOfCut(best))) best = cut;
  }
  return best;
}

/**
 * Whether `next` is to take the place of `shown`. Among complete views the larger one; a part makes room for any
 * complete view that can stand for the frame, and itself replaces no more than a stamp or a smaller part.
 */
export function isBetterView(next: ViewRank, shown: ViewRank | null): boolean {
  if (shown === null) return true;
  const edge = longEdgeOf(next);
  const shownEdge = longEdgeOf(shown);
  if (next.complete) {
    return shown.complete ? edge > shownEdge : edge >= Math.min(shownEdge, firstViewLongEdgePx);
  }
  if (!shown.complete) {
    return next.bytes >= shown.bytes + Math.max(partStepBytes, shown.bytes * partStepShare);
  }
  return (
    shownEdge < Math.min(edge, firstViewLongEdgePx) &&
    next.bytes >= next.widthPx * next.heightPx * stampGivesWayBytesPerPx
  );
}

export function rankOfCut({ range, complete, widthPx, heightPx }: ViewCut): ViewRank {
  return { complete, widthPx, heightPx, bytes: range.length };
}

export function rankOfView({ jpeg, complete, widthPx, heightPx }: CutPreview): ViewRank {
  return { complete, widthPx, heightPx, bytes: jpeg.length };
}

function longEdgeOf({ widthPx, heightPx }: ViewRank): number {
  return Math.max(widthPx, heightPx);
}

/** Only JPEG is cut: uncompressed thumbnails are stamps of 160 pixels beside a JPEG that follows. */
function previewCut({ previews }: Inspection): ViewCut | null {
  const jpegs = previews.filter(
    (preview) => preview.compression === 'jpeg' && preview.length <= viewBytesMax && isDecodable(preview),
  );
  const best = pickFirstView(jpegs);
  if (best === null || !hasSize(best)) return null;
  const { offset, length, widthPx, heightPx } = best;
  return { range: { offset, length }, complete: true, widthPx, heightPx };
}

function isDecodable({ widthPx, heightPx }: Pick<Preview, 'widthPx' | 'heightPx'>): boolean {
  return (widthPx ?? 0) * (heightPx ?? 0) <= viewPixelsMax;
}

function hasSize(
  preview: Preview,
): preview is Preview & { readonly widthPx: number; readonly heightPx: number } {
  return (preview.widthPx ?? 0) > 0 && (preview.heightPx ?? 0) > 0;
}

/** A file that is a JPEG itself, up to where its picture has come. */
function partCut({ jpeg, pictureWidthPx, pictureHeightPx }: Inspection): ViewCut | null {
  if (jpeg === null || !jpeg.decodable || jpeg.endBytes !== null || jpeg.scanEndBytes > viewBytesMax) {
    return null;
  }
  const [widthPx, heightPx] = [pictureWidthPx, pictureHeightPx];
  if (widthPx === null || heightPx === null || !isDecodable({ widthPx, heightPx })) return null;
  return { range: { offset: 0, length: jpeg.scanEndBytes }, complete: false, widthPx, heightPx };
}

/** The view with everything a page needs to place it. `bytes` are those of the cut's range. */
export function cutPreview(bytes: Uint8Array, cut: ViewCut, inspection: Inspection): CutPreview {
  const orientation = orientationOf(inspection.tags.orientation);
  const width = inspection.pictureWidthPx ?? cut.widthPx;
  const height = inspection.pictureHeightPx ?? cut.heightPx;
  const turned = orientation >= 5;
  return {
    jpeg: cut.complete ? bytes : closed(bytes),
    complete: cut.complete,
    widthPx: cut.widthPx,
    heightPx: cut.heightPx,
    orientation,
    uprightWidthPx: turned ? height : width,
    uprightHeightPx: turned ? width : height,
  };
}

/** A JPEG's beginning with an EOI behind it (ITU-T T.81 B.2.1); browsers decode nothing without one. */
function closed(bytes: Uint8Array): Uint8Array {
  const jpeg = new Uint8Array(bytes.length + 2);
  jpeg.set(bytes);
  jpeg.set([0xff, 0xd9], bytes.length);
  return jpeg;
}

/** Exif 2.32: any other value than 1 to 8 means nothing was said. */
export function orientationOf(tag: number | undefined): Orientation {
  const known: readonly Orientation[] = [1, 2, 3, 4, 5, 6, 7, 8];
  return known.find((value) => value === tag) ?? 1;
}
