import type { BoundedReader } from './bounded-reader.ts';
import type { ContentKind } from './content-kind.ts';
import type { Inspection } from './inspection.ts';
import { noTags, type PictureTags, pictureTagsOf } from './picture-tags.ts';
import type { Preview } from './preview.ts';
import { structureInspection } from './structure-inspection.ts';
import { tag } from './tag.ts';
import { parseTiffHeader, tiffHeaderBytesMax } from './tiff-header.ts';
import { tiffPreviews } from './tiff-previews.ts';
import { fullRaster, isSensorData, type Raster, rasterOf } from './tiff-raster.ts';
import { TiffStructure } from './tiff-structure.ts';
import { type TiffTree, walkTiff } from './tiff-tree.ts';

/** Inspects a file that is one TIFF structure: TIFF, DNG, and the raw formats built on it. */
export function inspectTiff(reader: BoundedReader): Inspection {
  const header = parseTiffHeader(headOf(reader));
  if (header === null) return nothingKnown('tiff', reader);
  const tiff = new TiffStructure(header, reader);
  const parts = readTiff(tiff);
  const size = pictureSize(parts, tiff);
  return structureInspection(reader, {
    kind: kindOfTiff(tiff, parts),
    previews: parts.previews,
    tags: parts.tags,
    size: size === null ? null : { widthPx: size[0], heightPx: size[1] },
    provable: header.standard && parts.rasters.length > 0,
  });
}

export interface TiffParts {
  readonly tree: TiffTree;
  readonly rasters: readonly Raster[];
  readonly full: Raster | undefined;
  readonly tags: PictureTags;
  readonly previews: readonly Preview[];
}

/** Everything one TIFF structure says. */
export function readTiff(tiff: TiffStructure): TiffParts {
  const tree = walkTiff(tiff);
  const rasters = tree.ifds
    .filter((ifd) => ifd.role === 'main' || ifd.role === 'sub')
    .map((ifd) => rasterOf(tiff, ifd))
    .filter((raster) => raster !== null);
  const full = fullRaster(rasters);
  return {
    tree,
    rasters,
    full,
    tags: pictureTagsOf({ tiff, ifd: tree.first }, { tiff, ifd: tree.exif }, full),
    previews: tiffPreviews(tiff, tree, rasters),
  };
}

/** An inspection that knows no more than a kind. */
export function nothingKnown(kind: ContentKind, reader: BoundedReader): Inspection {
  return {
    kind,
    previews: [],
    wanted: reader.wanted,
    wantedNext: reader.source.ended ? null : reader.awaitedEnd,
    wholeness: { kind: 'unknown' },
    expectedBytes: null,
    tags: noTags,
    pictureWidthPx: null,
    pictureHeightPx: null,
    jpeg: null,
    issues: reader.issues,
    resume: null,
  };
}

function headOf(reader: BoundedReader): Uint8Array {
  const length = Math.min(tiffHeaderBytesMax, reader.source.sizeBytes);
  return reader.peek(0, length) ?? new Uint8Array(0);
}

function kindOfTiff(tiff: TiffStructure, { tree, rasters }: TiffParts): ContentKind {
  if (tree.first?.fields.has(tag.DNGVersion) === true) return 'dng';
  return tiff.header.marksRaw || rasters.some(isSensorData) ? 'tiff-raw' : 'tiff';
}

/** Width and height of the full picture. A raw file without a described picture states its size in Exif. */
function pictureSize({ full, tags }: TiffParts, tiff: TiffStructure): readonly [number, number] | null {
  const stored = full === undefined ? null : sizeOrNull(full.widthPx, full.heightPx);
  const crop = tags.dng === null ? null : sizeOrNull(...(tags.dng.defaultCropSize ?? []));
  if (crop !== null && stored !== null && crop[0] <= stored[0] && crop[1] <= stored[1]) return crop;
  const isReadable = full !== undefined && (isSensorData(full) || !tiff.header.marksRaw);
  if (isReadable && stored !== null) return stored;
  return sizeOrNull(tags.pixelXDimension, tags.pixelYDimension);
}

function sizeOrNull(width?: number | null, height?: number | null): readonly [number, number] | null {
  return isPixels(width) && isPixels(height) ? [width, height] : null;
}

/** A default crop may be written as rationals (DNG 1.4); a picture has whole pixels. */
function isPixels(length: number | null | undefined): length is number {
  return typeof length === 'number' && Number.isInteger(length) && length > 0;
}
