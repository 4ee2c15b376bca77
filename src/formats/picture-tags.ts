import { type DngTags, dngTagsOf } from './dng-tags.ts';
import { tag } from './tag.ts';
import { type Ifd, numberOf, numbersOf, pixelsOf, textOf } from './tiff-ifd.ts';
import type { Raster } from './tiff-raster.ts';
import type { TiffStructure } from './tiff-structure.ts';

/**
 * What the tags say, as written: text uncleaned, figures unjudged. Undefined: the tag is not there, or not at hand yet.
 * Rationals are divided; NaN or Infinity where their denominator is zero. Names are the standards' (TIFF 6.0,
 * Exif 2.32, DNG 1.4) in this project's spelling of identifiers.
 */
export interface PictureTags {
  readonly make: string | undefined;
  readonly model: string | undefined;
  readonly uniqueCameraModel: string | undefined;
  /** BodySerialNumber, else DNG's CameraSerialNumber. */
  readonly serialNumber: string | undefined;
  readonly lensModel: string | undefined;
  readonly orientation: number | undefined;
  /** Last change of the file, `YYYY:MM:DD HH:MM:SS`. */
  readonly dateTime: string | undefined;
  readonly dateTimeOriginal: string | undefined;
  readonly dateTimeDigitized: string | undefined;
  readonly subSecTimeOriginal: string | undefined;
  readonly subSecTimeDigitized: string | undefined;
  readonly offsetTime: string | undefined;
  readonly offsetTimeOriginal: string | undefined;
  readonly offsetTimeDigitized: string | undefined;
  /** Seconds. */
  readonly exposureTime: number | undefined;
  readonly fNumber: number | undefined;
  /** APEX Tv = -log2(seconds). */
  readonly shutterSpeedValue: number | undefined;
  /** APEX Av = 2 log2(N). */
  readonly apertureValue: number | undefined;
  /** 65535 where the true figure needs 32 bits and stands in one of the three below. */
  readonly photographicSensitivity: number | undefined;
  readonly standardOutputSensitivity: number | undefined;
  readonly recommendedExposureIndex: number | undefined;
  readonly isoSpeed: number | undefined;
  /** 1 manual, 2 program, 3 aperture priority, 4 time priority, 5 to 8 scenes; 0 is unknown. */
  readonly exposureProgram: number | undefined;
  /** 0 auto, 1 manual, 2 a bracket that the camera takes by itself. */
  readonly exposureMode: number | undefined;
  /** 0 auto, 1 manual. */
  readonly whiteBalance: number | undefined;
  readonly compressedBitsPerPixel: number | undefined;
  /** Of the full picture, where a directory describes it. */
  readonly compression: number | undefined;
  readonly bitsPerSample: number | undefined;
  /** Millimetres. */
  readonly focalLength: number | undefined;
  /** Millimetres. */
  readonly focalLengthIn35mmFilm: number | undefined;
  /** Metres. */
  readonly subjectDistance: number | undefined;
  /** Two figures are a point, three a circle, four a rectangle about its middle (Exif 2.32, SubjectArea); pixels. */
  readonly subjectArea: readonly number[] | undefined;
  /** The point in the middle of the subject, pixels (Exif 2.32, SubjectLocation). */
  readonly subjectLocation: readonly number[] | undefined;
  /** 1 is sRGB, 65535 uncalibrated. */
  readonly colorSpace: number | undefined;
  readonly pixelXDimension: number | undefined;
  readonly pixelYDimension: number | undefined;
  /** Null where the file is no DNG. */
  readonly dng: DngTags | null;
}

/** The tags of a file whose directories are not at hand, or that has none. */
export const noTags: PictureTags = Object.freeze({
  make: undefined,
  model: undefined,
  uniqueCameraModel: undefined,
  serialNumber: undefined,
  lensModel: undefined,
  orientation: undefined,
  dateTime: undefined,
  dateTimeOriginal: undefined,
  dateTimeDigitized: undefined,
  subSecTimeOriginal: undefined,
  subSecTimeDigitized: undefined,
  offsetTime: undefined,
  offsetTimeOriginal: undefined,
  offsetTimeDigitized: undefined,
  exposureTime: undefined,
  fNumber: undefined,
  shutterSpeedValue: undefined,
  apertureValue: undefined,
  photographicSensitivity: undefined,
  standardOutputSensitivity: undefined,
  recommendedExposureIndex: undefined,
  isoSpeed: undefined,
  exposureProgram: undefined,
  exposureMode: undefined,
  whiteBalance: undefined,
  compressedBitsPerPixel: undefined,
  compression: undefined,
  bitsPerSample: undefined,
  focalLength: undefined,
  focalLengthIn35mmFilm: undefined,
  subjectDistance: undefined,
  subjectArea: undefined,
  subjectLocation: undefined,
  colorSpace: undefined,
  pixelXDimension: undefined,
  pixelYDimension: undefined,
  dng: null,
});

/** A directory and the structure that its offsets count in. */
export interface TagDirectory {
  readonly tiff: TiffStructure;
  readonly ifd: Ifd | undefined;
}

/**
 * Reads the tags of the `first` directory and of Exif, which some containers keep in structures of their own; `full` is
 * the first one's picture that holds the frame itself, where there is one.
 */
export function pictureTagsOf(
  { tiff, ifd: first }: TagDirectory,
  { tiff: exifTiff, ifd: exif }: TagDirectory,
  full: Raster | undefined,
): PictureTags {
  const text = (tagNumber: number): string | undefined => textOf(exifTiff, exif, tagNumber);
  const figure = (tagNumber: number): number | undefined => numberOf(exifTiff, exif, tagNumber);
  return {
    make: textOf(tiff, first, tag.Make),
    model: textOf(tiff, first, tag.Model),
    uniqueCameraModel: textOf(tiff, first, tag.UniqueCameraModel),
    serialNumber: text(tag.BodySerialNumber) ?? textOf(tiff, first, tag.CameraSerialNumber),
    lensModel: text(tag.LensModel),
    orientation: numberOf(tiff, first, tag.Orientation),
    dateTime: textOf(tiff, first, tag.DateTime),
    // TIFF/EP has it in the first directory; a file still arriving may have that and not yet its Exif.
    dateTimeOriginal: text(tag.DateTimeOriginal) ?? textOf(tiff, first, tag.DateTimeOriginal),
    dateTimeDigitized: text(tag.DateTimeDigitized),
    subSecTimeOriginal: text(tag.SubSecTimeOriginal),
    subSecTimeDigitized: text(tag.SubSecTimeDigitized),
    offsetTime: text(tag.OffsetTime),
    offsetTimeOriginal: text(tag.OffsetTimeOriginal),
    offsetTimeDigitized: text(tag.OffsetTimeDigitized),
    exposureTime: figure(tag.ExposureTime) ?? numberOf(tiff, first, tag.ExposureTime),
    fNumber: figure(tag.FNumber) ?? numberOf(tiff, first, tag.FNumber),
    shutterSpeedValue: figure(tag.ShutterSpeedValue),
    apertureValue: figure(tag.ApertureValue),
    photographicSensitivity: figure(tag.PhotographicSensitivity),
    standardOutputSensitivity: figure(tag.StandardOutputSensitivity),
    recommendedExposureIndex: figure(tag.RecommendedExposureIndex),
    isoSpeed: figure(tag.ISOSpeed),
    exposureProgram: figure(tag.ExposureProgram) ?? numberOf(tiff, first, tag.ExposureProgram),
    exposureMode: figure(tag.ExposureMode),
    whiteBalance: figure(tag.WhiteBalance),
    compressedBitsPerPixel: figure(tag.CompressedBitsPerPixel),
    compression: full?.compression,
    bitsPerSample: full?.bitsPerSample[0],
    focalLength: figure(tag.FocalLength) ?? numberOf(tiff, first, tag.FocalLength),
    focalLengthIn35mmFilm: figure(tag.FocalLengthIn35mmFilm),
    subjectDistance: figure(tag.SubjectDistance),
    subjectArea: numbersOf(exifTiff, exif, tag.SubjectArea, 4),
    subjectLocation: numbersOf(exifTiff, exif, tag.SubjectLocation, 2),
    colorSpace: figure(tag.ColorSpace),
    pixelXDimension: pixelsOf(exifTiff, exif, tag.PixelXDimension),
    pixelYDimension: pixelsOf(exifTiff, exif, tag.PixelYDimension),
    dng: dngTagsOf(tiff, first, full?.ifd),
  };
}

/** The tags of `first`, and where it has none those of `second`. */
export function joinTags(first: PictureTags, second: PictureTags): PictureTags {
  const said = Object.fromEntries(
    Object.entries(first).filter(([, value]) => value !== undefined && value !== null),
  );
  return { ...second, ...said };
}
