import type { ByteRange } from './byte-source.ts';
import { type StoredSamples, storedSamples } from './stored-samples.ts';
import { tag } from './tag.ts';
import { type Ifd, numberOf, numbersOf, rangeOf, textOf } from './tiff-ifd.ts';
import type { TiffStructure } from './tiff-structure.ts';

/**
 * What a DNG says about its sensor values and their colour (DNG 1.4 chapter 4), as written. Undefined: the tag is not
 * there, and the standard's default holds, or not at hand yet.
 */
export interface DngTags {
  readonly version: readonly number[];
  /** Rows and columns over which {@link blackLevel} repeats; 1 x 1 by default. */
  readonly blackLevelRepeatDim: readonly number[] | undefined;
  /** Row by row over the repeat, sample by sample; 0 by default. */
  readonly blackLevel: readonly number[] | undefined;
  /** Per sample; 2 to the power of the bits, less one, by default. */
  readonly whiteLevel: readonly number[] | undefined;
  /** Rows and columns of the colour filter array's repeat. */
  readonly cfaRepeatPatternDim: readonly number[] | undefined;
  /** 0 red, 1 green, 2 blue; row by row over the repeat (TIFF/EP). */
  readonly cfaPattern: readonly number[] | undefined;
  /** Camera values of a neutral as shot. */
  readonly asShotNeutral: readonly number[] | undefined;
  /** CIE xy of the white as shot, where the file says that instead. */
  readonly asShotWhiteXY: readonly number[] | undefined;
  readonly analogBalance: readonly number[] | undefined;
  /** XYZ to camera, row by row, under {@link calibrationIlluminant1}. */
  readonly colorMatrix1: readonly number[] | undefined;
  readonly colorMatrix2: readonly number[] | undefined;
  /** What this one body differs from its model by, planes x planes, row by row; the same two lights. */
  readonly cameraCalibration1: readonly number[] | undefined;
  readonly cameraCalibration2: readonly number[] | undefined;
  /** Whose calibration those two are, and whose the matrices ask for; empty text by default. */
  readonly cameraCalibrationSignature: string | undefined;
  readonly profileCalibrationSignature: string | undefined;
  /** Balanced camera to XYZ of D50, row by row; the same two lights. */
  readonly forwardMatrix1: readonly number[] | undefined;
  readonly forwardMatrix2: readonly number[] | undefined;
  /** Exif LightSource codes: 17 standard light A, 21 D65. */
  readonly calibrationIlluminant1: number | undefined;
  readonly calibrationIlluminant2: number | undefined;
  /** Stops; NaN where the file writes a zero denominator. */
  readonly baselineExposure: number | undefined;
  /** Top, left, bottom, right of the pixels that saw light, in the stored picture. */
  readonly activeArea: readonly number[] | undefined;
  /** Where the lists lie in the file, for `parseOpcodes`: what is to be done before, with and after linear light. */
  readonly opcodeLists: readonly [ByteRange | undefined, ByteRange | undefined, ByteRange | undefined];
  /** How the sensor values lie in the file; null where that is not simply row by row. */
  readonly stored: StoredSamples | null;
  /** Left, top of the final picture within the active area. */
  readonly defaultCropOrigin: readonly number[] | undefined;
  /** Width, height of the final picture. */
  readonly defaultCropSize: readonly number[] | undefined;
}

/** Most values of one level or pattern tag: an 8 x 8 repeat. */
const repeatMax = 64;

/** Colour matrices are planes x 3; four planes at most. */
const matrixMax = 12;

/** Calibrations are planes x planes. */
const squareMax = 16;

/** Colour tags stand in the first directory, levels and areas in the one with the sensor values. */
export function dngTagsOf(tiff: TiffStructure, first: Ifd | undefined, raw: Ifd | undefined): DngTags | null {
  const version = numbersOf(tiff, first, tag.DNGVersion, 4);
  if (version === undefined) return null;
  const inRaw = (tagNumber: number, countMax: number): number[] | undefined =>
    numbersOf(tiff, raw, tagNumber, countMax);
  const inFirst = (tagNumber: number, countMax: number): number[] | undefined =>
    numbersOf(tiff, first, tagNumber, countMax);
  return {
    version,
    blackLevelRepeatDim: inRaw(tag.BlackLevelRepeatDim, 2),
    blackLevel: inRaw(tag.BlackLevel, repeatMax),
    whiteLevel: inRaw(tag.WhiteLevel, 4),
    cfaRepeatPatternDim: inRaw(tag.CFARepeatPatternDim, 2),
    cfaPattern: inRaw(tag.CFAPattern, repeatMax),
    asShotNeutral: inFirst(tag.AsShotNeutral, 4),
    asShotWhiteXY: inFirst(tag.AsShotWhiteXY, 2),
    analogBalance: inFirst(tag.AnalogBalance, 4),
    colorMatrix1: inFirst(tag.ColorMatrix1, matrixMax),
    colorMatrix2: inFirst(tag.ColorMatrix2, matrixMax),
    cameraCalibration1: inFirst(tag.CameraCalibration1, squareMax),
    cameraCalibration2: inFirst(tag.CameraCalibration2, squareMax),
    cameraCalibrationSignature: textOf(tiff, first, tag.CameraCalibrationSignature),
    profileCalibrationSignature: textOf(tiff, first, tag.ProfileCalibrationSignature),
    forwardMatrix1: inFirst(tag.ForwardMatrix1, matrixMax),
    forwardMatrix2: inFirst(tag.ForwardMatrix2, matrixMax),
    calibrationIlluminant1: numberOf(tiff, first, tag.CalibrationIlluminant1),
    calibrationIlluminant2: numberOf(tiff, first, tag.CalibrationIlluminant2),
    baselineExposure: numberOf(tiff, first, tag.BaselineExposure),
    activeArea: inRaw(tag.ActiveArea, 4),
    opcodeLists: [
      rangeOf(tiff, raw, tag.OpcodeList1),
      rangeOf(tiff, raw, tag.OpcodeList2),
      rangeOf(tiff, raw, tag.OpcodeList3),
    ],
    stored: storedSamples(tiff, raw),
    defaultCropOrigin: inRaw(tag.DefaultCropOrigin, 2),
    defaultCropSize: inRaw(tag.DefaultCropSize, 2),
  };
}
