import {
  adaptWhite,
  chromaStep,
  coneToOklab,
  d65Xyz,
  invertMatrix,
  justNoticed,
  type Matrix3,
  multiplyMatrices,
  oklabToCone,
  type RgbSpaceName,
  rgbSpaces,
  type TransferFunction,
  xyToXyz,
  xyzToOklabCone,
} from '../colour/index.ts';

/** What a picture is written in. */
export interface OutputSpace {
  /** Linear RGB of the space to XYZ relative to D65. */
  readonly toXyz: Matrix3;
  readonly transfer: TransferFunction;
  /** Bits of a channel. */
  readonly depth: 8 | 16;
}

/** One of the standards' spaces; its white is adapted to D65 (Bradford) where it is another. */
export function outputSpace(name: RgbSpaceName, depth: OutputSpace['depth']): OutputSpace {
  const { toXyz, white, transfer } = rgbSpaces[name];
  return { toXyz: multiplyMatrices(adaptWhite(xyToXyz(white), d65Xyz), toXyz), transfer, depth };
}

/** What `mapGamut` takes to bring working light into a space. Null where its matrix has no inverse. */
export function gamutNumbers({ toXyz }: Pick<OutputSpace, 'toXyz'>): Float64Array | null {
  const fromXyz = invertMatrix(toXyz);
  if (fromXyz === null) return null;
  const toCone = multiplyMatrices(xyzToOklabCone, toXyz);
  const fromCone = invertMatrix(toCone);
  if (fromCone === null) return null;
  return Float64Array.of(
    ...multiplyMatrices(fromXyz, rgbSpaces.rec2020.toXyz),
    ...toCone,
    ...fromCone,
    ...coneToOklab,
    ...oklabToCone,
    justNoticed,
    chromaStep,
  );
}

/** Enough that 16 bits come within half a code of the formula: samples lie close together where curves are steep. */
const samples = 16_384;

/** What `encodeThrough` takes: codes for the light (i / samples)^2. */
export function encodeCurve({ transfer, depth }: Pick<OutputSpace, 'transfer' | 'depth'>): Float32Array {
  const most = depth === 8 ? 255 : 65_535;
  return Float32Array.from({ length: samples + 1 }, (_, i) => most * transfer.encode((i / samples) ** 2));
}
