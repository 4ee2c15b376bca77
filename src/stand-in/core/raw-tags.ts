/** The fields of each directory of a stand-in raw file. DNG 1.4 and Exif 2.32 names stand beside each number. */
import {
  asShotNeutral,
  baselineExposureEv,
  blackLevels,
  cameraMake,
  cameraModel,
  cameraSerial,
  electronsPerStep,
  filters,
  lensModel,
  readNoiseSteps,
  uniqueCameraModel,
  whiteLevel,
  xyzToCamera,
} from './camera-model.ts';
import { exifDateTime, exifOffset, exifSubSeconds } from './capture.ts';
import type { EmbeddedJpeg, RawLayout, StandInRaw } from './raw-shape.ts';
import { asciiTag, rationals, type Tag } from './tiff-writer.ts';

const short = (id: number, ...values: number[]): Tag => ({ id, type: 'short', values });
const long = (id: number, ...values: number[]): Tag => ({ id, type: 'long', values });
const byte = (id: number, ...values: number[]): Tag => ({ id, type: 'byte', values });
const rational = (id: number, ...values: number[]): Tag => ({ id, type: 'rational', values });
const srational = (id: number, ...values: number[]): Tag => ({ id, type: 'srational', values });
const opaque = (id: number, ...values: number[]): Tag => ({ id, type: 'undefined', values });

const compression = { none: 1, jpeg: 7 } as const;
const photometric = { yCbCr: 6, colourFilterArray: 32_803 } as const;

/** The picture part of the first directory: the thumbnail. */
export function thumbnailTags(raw: StandInRaw, layout: RawLayout): Tag[] {
  return jpegTags(raw.thumbnail, layout.thumbnail);
}

/** The directory of the large preview. */
export function previewTags(raw: StandInRaw, layout: RawLayout): Tag[] {
  return jpegTags(raw.preview, layout.preview);
}

function jpegTags(jpeg: EmbeddedJpeg, offset: number): Tag[] {
  return [
    long(0x00fe, 1), // NewSubfileType: reduced resolution
    long(0x0100, jpeg.widthPx), // ImageWidth
    long(0x0101, jpeg.heightPx), // ImageLength
    short(0x0102, 8, 8, 8), // BitsPerSample
    short(0x0103, compression.jpeg), // Compression
    short(0x0106, photometric.yCbCr), // PhotometricInterpretation
    long(0x0111, offset), // StripOffsets
    short(0x0115, 3), // SamplesPerPixel
    long(0x0116, jpeg.heightPx), // RowsPerStrip
    long(0x0117, jpeg.bytes.length), // StripByteCounts
    short(0x011c, 1), // PlanarConfiguration: interleaved
    short(0x0212, 2, 2), // YCbCrSubSampling
    short(0x0213, 1), // YCbCrPositioning: centred
    rational(0x0214, ...rationals([0, 255, 128, 255, 128, 255], 1)), // ReferenceBlackWhite
    long(0xc71a, 2), // PreviewColorSpace: sRGB
  ];
}

/** The camera part of the first directory. */
export function mainTags(raw: StandInRaw, layout: RawLayout): Tag[] {
  return [
    asciiTag(0x010f, cameraMake), // Make
    asciiTag(0x0110, cameraModel), // Model
    short(0x0112, raw.orientation), // Orientation
    asciiTag(0x0131, 'Setside stand-in'), // Software
    asciiTag(0x0132, exifDateTime(raw.shutter)), // DateTime
    long(0x014a, layout.previewDirectory, layout.mosaicDirectory), // SubIFDs
    long(0x8769, layout.capture), // ExifIFD
    byte(0xc612, 1, 4, 0, 0), // DNGVersion
    byte(0xc613, 1, 1, 0, 0), // DNGBackwardVersion
    asciiTag(0xc614, uniqueCameraModel), // UniqueCameraModel
    srational(0xc621, ...rationals(xyzToCamera, 10_000)), // ColorMatrix1
    rational(0xc628, ...rationals(asShotNeutral, 1_000_000)), // AsShotNeutral
    srational(0xc62a, ...rationals([baselineExposureEv], 100)), // BaselineExposure
    rational(0xc62b, 1, 1), // BaselineNoise
    rational(0xc62c, 1, 1), // BaselineSharpness
    rational(0xc62e, 1, 1), // LinearResponseLimit
    asciiTag(0xc62f, cameraSerial), // CameraSerialNumber
    rational(0xc630, ...lensRange(raw)), // LensInfo
    short(0xc65a, 21), // CalibrationIlluminant1: D65
  ];
}

/** The mosaic's directory. One strip: nothing is gained by several where nothing is compressed. */
export function mosaicTags(raw: StandInRaw, layout: RawLayout): Tag[] {
  return [
    long(0x00fe, 0), // NewSubfileType: the full picture
    long(0x0100, raw.widthPx), // ImageWidth
    long(0x0101, raw.heightPx), // ImageLength
    short(0x0102, 16), // BitsPerSample
    short(0x0103, compression.none), // Compression
    short(0x0106, photometric.colourFilterArray), // PhotometricInterpretation
    long(0x0111, layout.mosaic), // StripOffsets
    short(0x0115, 1), // SamplesPerPixel
    long(0x0116, raw.heightPx), // RowsPerStrip
    long(0x0117, raw.mosaic.length * 2), // StripByteCounts
    short(0x011c, 1), // PlanarConfiguration
    short(0x828d, 2, 2), // CFARepeatPatternDim
    byte(0x828e, ...filters), // CFAPattern
    byte(0xc616, 0, 1, 2), // CFAPlaneColor
    short(0xc617, 1), // CFALayout: rectangular
    short(0xc619, 2, 2), // BlackLevelRepeatDim
    short(0xc61a, ...blackLevels), // BlackLevel
    short(0xc61d, whiteLevel), // WhiteLevel
    rational(0xc61e, 1, 1, 1, 1), // DefaultScale
    long(0xc61f, 0, 0), // DefaultCropOrigin
    long(0xc620, raw.widthPx, raw.heightPx), // DefaultCropSize
    long(0xc68d, 0, 0, raw.heightPx, raw.widthPx), // ActiveArea
    noiseProfile(),
  ];
}

/** NoiseProfile (DNG 1.3): variance = S x + O with x from 0 to 1; photons give S, reading gives O. */
function noiseProfile(): Tag {
  const range = whiteLevel - 512;
  const perChannel = [1 / (electronsPerStep * range), (readNoiseSteps / range) ** 2];
  return { id: 0xc761, type: 'double', values: [...perChannel, ...perChannel, ...perChannel] };
}

/** The Exif directory. */
export function captureTags(raw: StandInRaw): Tag[] {
  const { settings, shutter } = raw;
  return [
    rational(0x829a, ...settings.exposureTime), // ExposureTime
    rational(0x829d, ...settings.fNumber), // FNumber
    short(0x8822, 1), // ExposureProgram: manual
    short(0x8827, settings.sensitivity), // PhotographicSensitivity
    short(0x8830, 2), // SensitivityType: recommended exposure index
    long(0x8832, settings.sensitivity), // RecommendedExposureIndex
    opaque(0x9000, 0x30, 0x32, 0x33, 0x32), // ExifVersion 0232
    asciiTag(0x9003, exifDateTime(shutter)), // DateTimeOriginal
    asciiTag(0x9004, exifDateTime(shutter)), // DateTimeDigitized
    asciiTag(0x9010, exifOffset(shutter)), // OffsetTime
    asciiTag(0x9011, exifOffset(shutter)), // OffsetTimeOriginal
    asciiTag(0x9012, exifOffset(shutter)), // OffsetTimeDigitized
    asciiTag(0x9290, exifSubSeconds(shutter)), // SubSecTime
    asciiTag(0x9291, exifSubSeconds(shutter)), // SubSecTimeOriginal
    asciiTag(0x9292, exifSubSeconds(shutter)), // SubSecTimeDigitized
    srational(0x9204, 0, 1), // ExposureBiasValue
    short(0x9207, 1), // MeteringMode: average
    short(0x9209, 0x09), // Flash: fired, compulsory
    rational(0x920a, settings.focalLengthMm, 1), // FocalLength
    short(0xa402, 1), // ExposureMode: manual
    short(0xa403, 1), // WhiteBalance: manual
    short(0xa405, settings.focalLengthMm), // FocalLengthIn35mmFilm
    asciiTag(0xa431, cameraSerial), // BodySerialNumber
    rational(0xa432, ...lensRange(raw)), // LensSpecification
    asciiTag(0xa433, cameraMake), // LensMake
    asciiTag(0xa434, lensModel), // LensModel
  ];
}

/** Shortest and longest focal length, widest aperture at each. */
function lensRange({ settings }: StandInRaw): number[] {
  return [settings.focalLengthMm, 1, settings.focalLengthMm, 1, 28, 10, 28, 10];
}
