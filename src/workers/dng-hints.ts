import type { RawHints } from '../develop/index.ts';
import type { Mosaic } from '../facts/index.ts';
import type { Inspection } from '../formats/index.ts';
import type { Region } from '../image/index.ts';
import { dngColour } from './dng-colour.ts';
import type { DngLens } from './dng-lens.ts';

type DngTags = NonNullable<Inspection['tags']['dng']>;

/**
 * What the tags of a DNG say and LibRaw's WebAssembly does not report, or not whole: black per filter position, the default
 * crop, the camera's colours, and whether BaselineExposure is stated at all.
 */
export function dngHints({ dng }: Inspection['tags'], lens: DngLens | null): RawHints {
  if (dng === null) return {};
  const blackLevels = blackPattern(dng);
  const crop = trimmed(defaultCrop(dng), lens?.trim ?? null);
  return {
    ...dngColour(dng),
    ...(lens === null ? {} : { lens }),
    ...largePattern(dng),
    ...(dng.blackLevel?.[0] === undefined ? {} : { black: dng.blackLevel[0] }),
    ...(blackLevels === null ? {} : { blackLevels }),
    ...(crop === null ? {} : { crop }),
    ...(isExposure(dng.baselineExposure) ? { baselineExposureEv: dng.baselineExposure } : {}),
  };
}

/** Five stops: beyond any camera; a zero denominator reads as NaN. */
function isExposure(ev: number | undefined): ev is number {
  return ev !== undefined && Math.abs(ev) <= 5;
}

/**
 * BlackLevel of a 2x2, 1x2 or 2x1 repeat (DNG 1.4, BlackLevelRepeatDim), counted from the corner of the active area as the
 * filters are. One value for all stays with the decoder, which also knows BlackLevelDelta.
 */
function blackPattern({ blackLevelRepeatDim, blackLevel }: DngTags): Mosaic['blackLevels'] | null {
  const [rows = 1, columns = 1] = blackLevelRepeatDim ?? [];
  const levels = blackLevel ?? [];
  if (rows < 1 || columns < 1 || rows > 2 || columns > 2 || levels.length !== rows * columns) return null;
  const at = (row: number, column: number): number =>
    levels[(row % rows) * columns + (column % columns)] ?? 0;
  const pattern = [at(0, 0), at(0, 1), at(1, 0), at(1, 1)] as const;
  return new Set(pattern).size > 1 && pattern.every((level) => Number.isFinite(level) && level >= 0)
    ? pattern
    : null;
}

/** TIFF/EP CFAPattern, counted from the corner of the active area (DNG 1.7.1), where it is larger than 2 x 2. */
function largePattern({ cfaRepeatPatternDim, cfaPattern }: DngTags): Pick<RawHints, 'cfa'> {
  const [rows = 0, columns = 0] = cfaRepeatPatternDim ?? [];
  const filters = cfaPattern ?? [];
  const isLarge = rows > 2 && columns > 2 && filters.length === rows * columns;
  return isLarge && filters.every((filter) => filter <= 2) ? { cfa: { rows, columns, filters } } : {};
}

/** The part that is in both. */
function trimmed(crop: Region | null, trim: Region | null): Region | null {
  if (crop === null || trim === null) return crop ?? trim;
  const leftPx = Math.max(crop.leftPx, trim.leftPx);
  const topPx = Math.max(crop.topPx, trim.topPx);
  const widthPx = Math.min(crop.leftPx + crop.widthPx, trim.leftPx + trim.widthPx) - leftPx;
  const heightPx = Math.min(crop.topPx + crop.heightPx, trim.topPx + trim.heightPx) - topPx;
  return widthPx > 0 && heightPx > 0 ? { leftPx, topPx, widthPx, heightPx } : crop;
}

/** DefaultCrop as whole pixels within the active area, or null where it is absent or makes no picture. */
function defaultCrop({ defaultCropOrigin, defaultCropSize }: DngTags): Region | null {
  const [left = 0, top = 0] = defaultCropOrigin ?? [];
  const [width = Number.NaN, height = Number.NaN] = defaultCropSize ?? [];
  const crop = {
    leftPx: Math.floor(left),
    topPx: Math.floor(top),
    widthPx: Math.floor(width),
    heightPx: Math.floor(height),
  };
  const sound = Object.values(crop).every((value) => Number.isSafeInteger(value) && value >= 0);
  return sound && crop.widthPx > 0 && crop.heightPx > 0 ? crop : null;
}
