/** The fields of each directory of a stand-in raw file. DNG 1.4 and Exif 2.32 names stand beside each number. */
import {
  asShotNeutral,
  baselineExposureEv,
  blackLevels,
  cameraMake,
  cameraModel,
  electronsPerStep,
  filters,
  lensModel,
  readNoiseSteps,
  sampleBits,
  settings,
  uniqueCameraModel,
  whiteLevel,
  xyzToCamera,
} from './camera-model.ts';
import { type Capture, exifDateTime, exifOffset, exifSubSeconds } from './capture.ts';
import type { EmbeddedJpeg, RawLayout, StandInRaw } from './raw-shape.ts';
import {
  asciiTag,
  byteTag,
  longTag,
  opaqueTag,
  rationals,
  rationalTag,
  shortTag,
  srationalTag,
  type Tag,
} from './tiff-writer.ts';

const compression = { none: 1, jpeg: 7 } as const;
const photometric = { yCbCr: 6, colourFilterArray: 32_803 } as const;

/** A preview in a directory: the first in the main one, the others in their own. */
export function jpegTags(jpeg: EmbeddedJpeg, offset: number): Tag[] {
  return [
    longTag(0x00fe, 1), // NewSubfileType: reduced resolution
    longTag(0x0100, jpeg.widthPx), // ImageWidth
    longTag(0x0101, jpeg.heightPx), // ImageLength
    shortTag(0x0102, 8, 8, 8), // BitsPerSample
    shortTag(0x0103, compression.jpeg), // Compression
    shortTag(0x0106, photometric.yCbCr), // PhotometricInterpretation
    longTag(0x0111, offset), // StripOffsets
    shortTag(0x0115, 3), // SamplesPerPixel
    longTag(0x0116, jpeg.heightPx), // RowsPerStrip
    longTag(0x0117, jpeg.bytes.length), // StripByteCounts
    shortTag(0x011c, 1), // PlanarConfiguration: interleaved
    shortTag(0x0212, 2, 2), // YCbCrSubSampling
    shortTag(0x0213, 1), // YCbCrPositioning: centred
    rationalTag(0x0214, ...rationals([0, 255, 128, 255, 128, 255], 1)), // ReferenceBlackWhite
    longTag(0xc71a, 2), // PreviewColorSpace: sRGB
  ];
}

/** The camera part of the first directory. */
export function mainTags({ capture }: StandInRaw, layout: RawLayout): Tag[] {
  return [
    asciiTag(0x010f, cameraMake), // Make
    asciiTag(0x0110, cameraModel), // Model
    shortTag(0x0112, capture.orientation), // Orientation
    asciiTag(0x0131, 'Setside stand-in'), // Software
    asciiTag(0x0132, exifDateTime(capture.shutter)), // DateTime
    longTag(0x014a, layout.mosaicDirectory, ...layout.previewDirectories), // SubIFDs
    longTag(0x8769, layout.exif), // ExifIFD
    byteTag(0xc612, 1, 4, 0, 0), // DNGVersion
    byteTag(0xc613, 1, 1, 0, 0), // DNGBackwardVersion
    asciiTag(0xc614, uniqueCameraModel), // UniqueCameraModel
    srationalTag(0xc621, ...rationals(xyzToCamera, 10_000)), // ColorMatrix1
    rationalTag(0xc628, ...rationals(asShotNeutral, 1_000_000)), // AsShotNeutral
    srationalTag(0xc62a, ...rationals([baselineExposureEv], 100)), // BaselineExposure
    rationalTag(0xc62b, 1, 1), // BaselineNoise
    rationalTag(0xc62c, 1, 1), // BaselineSharpness
    rationalTag(0xc62e, 1, 1), // LinearResponseLimit
    asciiTag(0xc62f, capture.body.serial), // CameraSerialNumber
    rationalTag(0xc630, ...lensRange(capture)), // LensInfo
    shortTag(0xc65a, 21), // CalibrationIlluminant1: D65
  ];
}

/** The mosaic's directory. One strip of `bytes` from `offset`: it is written in one go and read in one go. */
export function mosaicTags(raw: StandInRaw, offset: number, bytes: number): Tag[] {
  const packed = raw.data.compression === 'lossless-jpeg';
  return [
    longTag(0x00fe, 0), // NewSubfileType: the full picture
    longTag(0x0100, raw.widthPx), // ImageWidth
    longTag(0x0101, raw.heightPx), // ImageLength
    shortTag(0x0102, packed ? sampleBits : 16), // BitsPerSample
    shortTag(0x0103, packed ? compression.jpeg : compression.none), // Compression
    shortTag(0x0106, photometric.colourFilterArray), // PhotometricInterpretation
    longTag(0x0111, offset), // StripOffsets
    shortTag(0x0115, 1), // SamplesPerPixel
    longTag(0x0116, raw.heightPx), // RowsPerStrip
    longTag(0x0117, bytes), // StripByteCounts
    shortTag(0x011c, 1), // PlanarConfiguration
    shortTag(0x828d, 2, 2), // CFARepeatPatternDim
    byteTag(0x828e, ...filters), // CFAPattern
    byteTag(0xc616, 0, 1, 2), // CFAPlaneColor
    shortTag(0xc617, 1), // CFALayout: rectangular
    shortTag(0xc619, 2, 2), // BlackLevelRepeatDim
    shortTag(0xc61a, ...blackLevels), // BlackLevel
    shortTag(0xc61d, whiteLevel), // WhiteLevel
    rationalTag(0xc61e, 1, 1, 1, 1), // DefaultScale
    longTag(0xc61f, 0, 0), // DefaultCropOrigin
    longTag(0xc620, raw.widthPx, raw.heightPx), // DefaultCropSize
    longTag(0xc68d, 0, 0, raw.heightPx, raw.widthPx), // ActiveArea
    noiseProfile(raw.capture.settings.sensitivity / settings.sensitivity),
  ];
}

/** NoiseProfile (DNG 1.3): variance = S x + O with x from 0 to 1; photons give S, reading gives O. `gain`: over base sensitivity. */
function noiseProfile(gain: number): Tag {
  const range = whiteLevel - 512;
  const perChannel = [gain / (electronsPerStep * range), ((readNoiseSteps * gain) / range) ** 2];
  return { id: 0xc761, type: 'double', values: [...perChannel, ...perChannel, ...perChannel] };
}

/** The Exif directory. */
export function exifTags(capture: Capture): Tag[] {
  const { settings: dials, shutter } = capture;
  return [
    rationalTag(0x829a, ...dials.exposureTime), // ExposureTime
    rationalTag(0x829d, ...dials.fNumber), // FNumber
    shortTag(0x8822, 1), // ExposureProgram: manual
    shortTag(0x8827, dials.sensitivity), // PhotographicSensitivity
    shortTag(0x8830, 2), // SensitivityType: recommended exposure index
    longTag(0x8832, dials.sensitivity), // RecommendedExposureIndex
    opaqueTag(0x9000, 0x30, 0x32, 0x33, 0x32), // ExifVersion 0232
    asciiTag(0x9003, exifDateTime(shutter)), // DateTimeOriginal
    asciiTag(0x9004, exifDateTime(shutter)), // DateTimeDigitized
    asciiTag(0x9010, exifOffset(shutter)), // OffsetTime
    asciiTag(0x9011, exifOffset(shutter)), // OffsetTimeOriginal
    asciiTag(0x9012, exifOffset(shutter)), // OffsetTimeDigitized
    asciiTag(0x9290, exifSubSeconds(shutter)), // SubSecTime
    asciiTag(0x9291, exifSubSeconds(shutter)), // SubSecTimeOriginal
    asciiTag(0x9292, exifSubSeconds(shutter)), // SubSecTimeDigitized
    srationalTag(0x9204, 0, 1), // ExposureBiasValue
    shortTag(0x9207, 1), // MeteringMode: average
    shortTag(0x9209, 0x09), // Flash: fired, compulsory
    rationalTag(0x920a, dials.focalLengthMm, 1), // FocalLength
    shortTag(0xa402, 1), // ExposureMode: manual
    shortTag(0xa403, dials.autoBalance ? 0 : 1), // WhiteBalance: auto or manual
    shortTag(0xa405, dials.focalLengthMm), // FocalLengthIn35mmFilm
    asciiTag(0xa431, capture.body.serial), // BodySerialNumber
    rationalTag(0xa432, ...lensRange(capture)), // LensSpecification
    asciiTag(0xa433, cameraMake), // LensMake
    asciiTag(0xa434, lensModel), // LensModel
  ];
}

/** Shortest and longest focal length, widest aperture at each. */
function lensRange({ settings }: Capture): number[] {
  return [settings.focalLengthMm, 1, settings.focalLengthMm, 1, 28, 10, 28, 10];
}
