import type { ByteRange } from './byte-source.ts';
import { compression, photometric, tag } from './tag.ts';
import { type Ifd, numberOf, numbersOf, pixelsOf } from './tiff-ifd.ts';
import type { TiffStructure } from './tiff-structure.ts';

/** One picture that a directory describes by strips or tiles. */
export interface Raster {
  readonly ifd: Ifd;
  /** As stored, pixels; null where the directory does not say. */
  readonly widthPx: number | null;
  readonly heightPx: number | null;
  readonly compression: number;
  readonly photometric: number | undefined;
  /** One figure per sample; empty where the directory does not say. */
  readonly bitsPerSample: readonly number[];
  /** NewSubfileType bit 0: a smaller version of another picture of the file. Undefined where it does not say. */
  readonly reduced: boolean | undefined;
  /** Planes of samples one behind the other instead of sample by sample. */
  readonly planar: boolean;
  readonly pieces: Pieces | null;
}

/** The strips or tiles of a picture. */
export interface Pieces {
  readonly tiled: boolean;
  readonly count: number;
  /** The one run of bytes they form where each begins at the end of the one before, else null. */
  readonly run: ByteRange | null;
}

/**
 * The strips or tiles of a directory, each claimed from the file; null where it describes no picture.
 * TIFF 6.0 section 3 (strips) and 15 (tiles).
 */
export function rasterOf(tiff: TiffStructure, ifd: Ifd): Raster | null {
  const tiled = ifd.fields.has(tag.TileOffsets);
  if (!tiled && !ifd.fields.has(tag.StripOffsets)) return null;
  const described = {
    ifd,
    widthPx: pixelsOf(tiff, ifd, tag.ImageWidth) ?? null,
    heightPx: pixelsOf(tiff, ifd, tag.ImageLength) ?? null,
    compression: numberOf(tiff, ifd, tag.Compression) ?? compression.none,
    photometric: numberOf(tiff, ifd, tag.PhotometricInterpretation),
    bitsPerSample: numbersOf(tiff, ifd, tag.BitsPerSample, 8) ?? [],
    reduced: isReduced(tiff, ifd),
    planar: numberOf(tiff, ifd, tag.PlanarConfiguration) === 2,
  };
  return { ...described, pieces: claimPieces(tiff, ifd, tiled) };
}

function isReduced(tiff: TiffStructure, ifd: Ifd): boolean | undefined {
  const kind = numberOf(tiff, ifd, tag.NewSubfileType);
  return kind === undefined ? undefined : (kind & 1) === 1;
}

/** Claims every strip or tile; null while their places are not at hand, or where they are unclear. */
function claimPieces(tiff: TiffStructure, ifd: Ifd, tiled: boolean): Pieces | null {
  const offsets = piecesOf(tiff, ifd, tiled ? tag.TileOffsets : tag.StripOffsets);
  const lengths = piecesOf(tiff, ifd, tiled ? tag.TileByteCounts : tag.StripByteCounts);
  if (offsets === undefined || lengths === undefined) return null;
  if (offsets.length !== lengths.length || offsets.length === 0) {
    tiff.reader.doubt('pieces-unclear', tiff.baseOffset + ifd.offset);
    return null;
  }
  let end = offsets[0] ?? 0;
  let joined = true;
  for (const [i, offset] of offsets.entries()) {
    const length = lengths[i] ?? 0;
    joined = tiff.claim(offset, length) && joined && offset === end;
    end = offset + length;
  }
  const start = offsets[0] ?? 0;
  const run = joined ? { offset: tiff.baseOffset + start, length: end - start } : null;
  return { tiled, count: offsets.length, run };
}

/** One figure per strip or tile; undefined while they are not at hand, or where there are none or too many. */
function piecesOf(tiff: TiffStructure, ifd: Ifd, tagNumber: number): readonly number[] | undefined {
  const { piecesMax } = tiff.reader.limits;
  const field = ifd.fields.get(tagNumber);
  const where = tiff.baseOffset + ifd.offset;
  if (field === undefined) tiff.reader.doubt('pieces-unclear', where);
  else if (field.count > piecesMax) tiff.reader.doubt('pieces-too-many', where);
  return field === undefined || field.count > piecesMax
    ? undefined
    : numbersOf(tiff, ifd, tagNumber, piecesMax);
}

/** Whether the picture holds sensor values that must be developed before anybody can look at them. */
export function isSensorData(raster: Raster): boolean {
  return raster.photometric === photometric.cfa || raster.photometric === photometric.linearRaw;
}

/** The picture that is the frame itself: the largest with sensor values, else the largest that is not reduced. */
export function fullRaster(rasters: readonly Raster[]): Raster | undefined {
  const sensor = rasters.filter(isSensorData);
  const candidates = sensor.length > 0 ? sensor : rasters.filter((raster) => raster.reduced !== true);
  return candidates.reduce<Raster | undefined>(
    (best, raster) => (best === undefined || pixels(raster) > pixels(best) ? raster : best),
    undefined,
  );
}

function pixels(raster: Raster): number {
  return (raster.widthPx ?? 0) * (raster.heightPx ?? 0);
}
