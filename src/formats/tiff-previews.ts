import type { ByteRange } from './byte-source.ts';
import { jpegPreviewAt } from './jpeg-preview.ts';
import type { Preview } from './preview.ts';
import type { PixelSize } from './structure-inspection.ts';
import { compression, photometric, tag } from './tag.ts';
import { type Ifd, numberOf } from './tiff-ifd.ts';
import { isSensorData, type Raster } from './tiff-raster.ts';
import type { TiffStructure } from './tiff-structure.ts';
import type { TiffTree } from './tiff-tree.ts';

/** Every preview that the directories announce. */
export function tiffPreviews(tiff: TiffStructure, tree: TiffTree, rasters: readonly Raster[]): Preview[] {
  const said = exifColourSpace(tiff, tree.exif);
  const found = tree.ifds
    .filter((ifd) => ifd.role === 'main' || ifd.role === 'sub')
    .flatMap((ifd) => [
      interchangePreview(tiff, ifd),
      stripPreview(
        tiff,
        rasters.find((raster) => raster.ifd === ifd),
      ),
    ])
    .filter((preview) => preview !== null)
    .map((preview) => ({ ...preview, colourSpace: preview.colourSpace ?? said }));
  return found.filter((preview, i) => found.findIndex((other) => other.offset === preview.offset) === i);
}

/** A JPEG pointed to by JPEGInterchangeFormat, as Exif 2.32 section 4.6.5 has it for thumbnails and makers for more. */
function interchangePreview(tiff: TiffStructure, ifd: Ifd): Preview | null {
  const offset = numberOf(tiff, ifd, tag.JPEGInterchangeFormat);
  const length = numberOf(tiff, ifd, tag.JPEGInterchangeFormatLength);
  if (offset === undefined || length === undefined || length === 0) return null;
  if (!tiff.claim(offset, length)) return null;
  return jpegPreview(tiff, ifd, { offset: tiff.baseOffset + offset, length }, null);
}

/**
 * A reduced picture in one run of strips or tiles. A first directory that holds a JPEG of 8 bits is one too, though it
 * may not say so; sensor data never is.
 */
function stripPreview(tiff: TiffStructure, raster: Raster | undefined): Preview | null {
  const run = raster?.pieces?.run ?? null;
  if (raster === undefined || run === null || isSensorData(raster)) return null;
  const { widthPx, heightPx, bitsPerSample, ifd } = raster;
  if (widthPx === null || heightPx === null || bitsPerSample.some((bits) => bits !== 8)) return null;
  if (raster.compression === compression.oldJpeg || raster.compression === compression.jpeg) {
    // Each strip would be a JPEG of its own.
    const isOne = raster.pieces?.count === 1 && raster.reduced !== false;
    return isOne ? jpegPreview(tiff, ifd, run, { widthPx, heightPx }) : null;
  }
  if (!isPlainRgb(raster) || raster.reduced !== true || run.length < widthPx * heightPx * 3) return null;
  return {
    ...run,
    widthPx,
    heightPx,
    compression: 'uncompressed-rgb',
    complete: hasArrived(tiff, run),
    colourSpace: previewColourSpace(tiff, ifd),
  };
}

function isPlainRgb(raster: Raster): boolean {
  return (
    raster.compression === compression.none &&
    raster.photometric === photometric.rgb &&
    raster.bitsPerSample.length === 3 &&
    raster.pieces?.tiled === false &&
    !raster.planar
  );
}

function jpegPreview(
  tiff: TiffStructure,
  ifd: Ifd,
  run: ByteRange,
  tagged: PixelSize | null,
): Preview | null {
  return jpegPreviewAt(tiff.reader, run, tagged, previewColourSpace(tiff, ifd));
}

function hasArrived(tiff: TiffStructure, run: ByteRange): boolean {
  return run.offset + run.length <= tiff.reader.source.sizeBytes;
}

/** DNG 1.4, PreviewColorSpace: 2 sRGB, 3 Adobe RGB, 4 ProPhoto RGB. */
function previewColourSpace(tiff: TiffStructure, ifd: Ifd): Preview['colourSpace'] {
  const code = numberOf(tiff, ifd, tag.PreviewColorSpace);
  if (code === 2) return 'srgb';
  if (code === 3) return 'adobe-rgb';
  return code === 4 ? 'prophoto-rgb' : null;
}

/** Exif 2.32 ColorSpace: 1 is sRGB; 65535 (uncalibrated) says nothing by itself. */
function exifColourSpace(tiff: TiffStructure, exif: Ifd | undefined): Preview['colourSpace'] {
  return numberOf(tiff, exif, tag.ColorSpace) === 1 ? 'srgb' : null;
}
