import {
  diagonalMatrix,
  identityMatrix,
  linearRgbToRgb,
  type Matrix3,
  multiplyMatrices,
  parseMatrix,
  type RgbSpaceName,
  rgbSpaces,
  type Vector3,
} from '../colour/index.ts';
import type { Finding, Mosaic } from '../facts/index.ts';
import { balancedToWorking } from './camera-colour.ts';

/** Everything about one mosaic that is computed once, before any pixel. */
export interface DevelopPlan {
  readonly bin: BinPlan;
  /** Balanced camera RGB to linear Rec.2020, white to white. */
  readonly toWorking: Matrix3;
  /** `develop.no-camera-matrix` where the camera's colours are not known. */
  readonly issues: readonly Finding[];
}

/**
 * One 2x2 block of the mosaic to balanced camera RGB. Positions are 0 … 3 in the order of `Mosaic.filters`;
 * `(value - black[p]) * scale[p]`, the two greens averaged.
 */
export interface BinPlan {
  readonly redPosition: number;
  readonly bluePosition: number;
  readonly greenPositions: readonly [number, number];
  readonly black: readonly [number, number, number, number];
  readonly scale: readonly [number, number, number, number];
  /** Where each of red, green, blue saturates in balanced camera RGB; the smallest is 1. */
  readonly saturation: Vector3;
}

/** Plans the way from a mosaic to working light. */
export function planDevelop(mosaic: Mosaic): DevelopPlan {
  const multipliers = mosaic.asShotMultipliers;
  const neutral: Vector3 = [1 / multipliers[0], 1 / multipliers[1], 1 / multipliers[2]];
  // Grey has no colour to be known.
  if (mosaic.layout?.kind === 'grey') {
    return { bin: planBin(mosaic), toWorking: identityMatrix, issues: [] };
  }
  const matrix = mosaic.xyzToCamera === null ? null : parseMatrix(mosaic.xyzToCamera);
  const toWorking = matrix === null ? null : balancedToWorking(matrix, neutral);
  return {
    bin: planBin(mosaic),
    toWorking: toWorking ?? linearRgbToRgb(rgbSpaces.srgb, rgbSpaces.rec2020),
    issues: toWorking === null ? [{ code: 'develop.no-camera-matrix', args: {} }] : [],
  };
}

/** Working light to linear RGB of a space, each channel times `gain`. */
export function workingToSpace(space: RgbSpaceName, gain = 1): Matrix3 {
  return multiplyMatrices(
    diagonalMatrix([gain, gain, gain]),
    linearRgbToRgb(rgbSpaces.rec2020, rgbSpaces[space]),
  );
}

function planBin(mosaic: Mosaic): BinPlan {
  const smallest = Math.min(...mosaic.asShotMultipliers);
  const saturation: Vector3 = [
    mosaic.asShotMultipliers[0] / smallest,
    mosaic.asShotMultipliers[1] / smallest,
    mosaic.asShotMultipliers[2] / smallest,
  ];
  const scaleAt = (position: 0 | 1 | 2 | 3): number => {
    const filter = mosaic.filters[position];
    const range = mosaic.whiteLevel - mosaic.blackLevels[position];
    return (filter === 0 ? saturation[0] : filter === 1 ? saturation[1] : saturation[2]) / range;
  };
  const greens = [0, 1, 2, 3].filter((position) => mosaic.filters[position] === 1);
  return {
    redPosition: mosaic.filters.indexOf(0),
    bluePosition: mosaic.filters.indexOf(2),
    greenPositions: [greens[0] ?? 1, greens[1] ?? 2],
    black: mosaic.blackLevels,
    scale: [scaleAt(0), scaleAt(1), scaleAt(2), scaleAt(3)],
    saturation,
  };
}

/** The numbers that `binMosaic` takes. */
export function binNumbers(plan: BinPlan): Float64Array {
  const { black, scale, redPosition, bluePosition, greenPositions } = plan;
  return Float64Array.of(...black, ...scale, redPosition, bluePosition, greenPositions[0]);
}
