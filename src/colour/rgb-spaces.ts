import { adaptWhite } from './adaptation.ts';
import {
  applyMatrix,
  diagonalMatrix,
  invertKnownMatrix,
  type Matrix3,
  matrixOfColumns,
  multiplyMatrices,
} from './matrix.ts';
import {
  adobeRgbTransfer,
  rec2020Transfer,
  rommTransfer,
  srgbTransfer,
  type TransferFunction,
} from './transfer-functions.ts';
import { type Chromaticity, d50Xy, d65Xy, xyToXyz } from './white-points.ts';

export interface RgbSpace {
  /** The standard's name, as a profile's description prints it. */
  readonly title: string;
  /** Chromaticities of red, green, blue. */
  readonly primaries: readonly [Chromaticity, Chromaticity, Chromaticity];
  readonly white: Chromaticity;
  readonly transfer: TransferFunction;
  /** Linear RGB to XYZ relative to the space's own white, Y = 1 at RGB 1 1 1. */
  readonly toXyz: Matrix3;
  /** The inverse of `toXyz`. */
  readonly fromXyz: Matrix3;
}

export const rgbSpaceNames = ['srgb', 'display-p3', 'rec2020', 'adobe-rgb', 'romm'] as const;
export type RgbSpaceName = (typeof rgbSpaceNames)[number];

/** Primaries and whites as printed in the standards named; matrices follow from them (SMPTE RP 177). */
export const rgbSpaces: Readonly<Record<RgbSpaceName, RgbSpace>> = {
  /** IEC 61966-2-1:1999. */
  srgb: rgbSpace('sRGB', [0.64, 0.33], [0.3, 0.6], [0.15, 0.06], d65Xy, srgbTransfer),
  /** Primaries of SMPTE RP 431-2, white D65, transfer function of sRGB (SMPTE EG 432-1). */
  'display-p3': rgbSpace('Display P3', [0.68, 0.32], [0.265, 0.69], [0.15, 0.06], d65Xy, srgbTransfer),
  /** ITU-R BT.2020-2, table 3. */
  rec2020: rgbSpace('Rec. 2020', [0.708, 0.292], [0.17, 0.797], [0.131, 0.046], d65Xy, rec2020Transfer),
  /** Adobe RGB (1998) Color Image Encoding, version 2005-05, 4.3.1.1. */
  'adobe-rgb': rgbSpace(
    'Adobe RGB (1998)',
    [0.64, 0.33],
    [0.21, 0.71],
    [0.15, 0.06],
    d65Xy,
    adobeRgbTransfer,
  ),
  /** ISO 22028-2:2013. */
  romm: rgbSpace(
    'ROMM RGB',
    [0.734699, 0.265301],
    [0.159597, 0.840403],
    [0.036598, 0.000105],
    d50Xy,
    rommTransfer,
  ),
};

/**
 * The matrix from linear RGB of one space to linear RGB of another, white to white (Bradford where the whites differ).
 * Results may lie outside 0 … 1.
 */
export function linearRgbToRgb(from: RgbSpace, to: RgbSpace): Matrix3 {
  return multiplyMatrices(
    to.fromXyz,
    multiplyMatrices(adaptWhite(xyToXyz(from.white), xyToXyz(to.white)), from.toXyz),
  );
}

function rgbSpace(
  title: string,
  red: Chromaticity,
  green: Chromaticity,
  blue: Chromaticity,
  white: Chromaticity,
  transfer: TransferFunction,
): RgbSpace {
  const toXyz = primariesToXyz(red, green, blue, white);
  return { title, primaries: [red, green, blue], white, transfer, toXyz, fromXyz: invertKnownMatrix(toXyz) };
}

/** SMPTE RP 177-1993, 3.3: scale the primaries so that together they make the white. */
function primariesToXyz(
  red: Chromaticity,
  green: Chromaticity,
  blue: Chromaticity,
  white: Chromaticity,
): Matrix3 {
  const primaries = matrixOfColumns(xyToXyz(red), xyToXyz(green), xyToXyz(blue));
  const luminances = applyMatrix(invertKnownMatrix(primaries), xyToXyz(white));
  return multiplyMatrices(primaries, diagonalMatrix(luminances));
}
