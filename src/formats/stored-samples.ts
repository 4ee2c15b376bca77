import type { ByteRange } from './byte-source.ts';
import { tag } from './tag.ts';
import { type Ifd, numberOf, numbersOf, pixelsOf } from './tiff-ifd.ts';
import type { TiffStructure } from './tiff-structure.ts';

/** How a directory stores one plane of samples, in strips or tiles. */
export interface StoredSamples {
  readonly widthPx: number;
  readonly heightPx: number;
  /** TIFF Compression; 7 is JPEG, which for samples of a sensor is the lossless one (DNG 1.7.1, chapter 3). */
  readonly compression: number;
  /** Strips are as wide as the picture. */
  readonly pieceWidthPx: number;
  readonly pieceHeightPx: number;
  /** In the file, row by row from the top. */
  readonly pieces: readonly ByteRange[];
}

/** DNG 1.2 and 1.7: samples that lie in another order than row by row, column by column. */
const reordered = [0xc71e, 0xc71f, 0xcd43] as const;

/**
 * Null where the directory describes no such picture, where its samples are codes for others (LinearizationTable) or lie in
 * another order, and where what describes it is not at hand.
 */
export function storedSamples(tiff: TiffStructure, ifd: Ifd | undefined): StoredSamples | null {
  if (ifd === undefined || ifd.fields.has(tag.LinearizationTable)) return null;
  if (reordered.some((tagNumber) => ifd.fields.has(tagNumber))) return null;
  const { piecesMax } = tiff.reader.limits;
  const tiled = ifd.fields.has(tag.TileOffsets);
  const widthPx = pixelsOf(tiff, ifd, tag.ImageWidth);
  const heightPx = pixelsOf(tiff, ifd, tag.ImageLength);
  const compression = numberOf(tiff, ifd, tag.Compression);
  const offsets = numbersOf(tiff, ifd, tiled ? tag.TileOffsets : tag.StripOffsets, piecesMax);
  const lengths = numbersOf(tiff, ifd, tiled ? tag.TileByteCounts : tag.StripByteCounts, piecesMax);
  if (!widthPx || !heightPx || compression === undefined || !offsets || !lengths) return null;
  if ((numberOf(tiff, ifd, tag.SamplesPerPixel) ?? 1) !== 1 || offsets.length !== lengths.length) return null;
  const pieceWidthPx = tiled ? pixelsOf(tiff, ifd, tag.TileWidth) : widthPx;
  const tall = pixelsOf(tiff, ifd, tiled ? tag.TileLength : tag.RowsPerStrip) ?? (tiled ? 0 : heightPx);
  // One strip may say that it has more rows than there are.
  const pieceHeightPx = tiled ? tall : Math.min(tall, heightPx);
  if (!pieceWidthPx || !pieceHeightPx) return null;
  const pieces = offsets.map((offset, index) => ({
    offset: tiff.baseOffset + offset,
    length: lengths[index] ?? 0,
  }));
  return { widthPx, heightPx, compression, pieceWidthPx, pieceHeightPx, pieces };
}
