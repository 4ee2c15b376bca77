/**
 * How linear light becomes an encoded value and back, for one channel, 1 = white.
 * Both are defined for every real number: below 0 they go on point-symmetrically, above 1 by the same formula, so that
 * out-of-gamut colours survive the way there and back (CSS Color 4 does the same).
 */
export interface TransferFunction {
  readonly decode: (encoded: number) => number;
  readonly encode: (linear: number) => number;
  /**
   * The decoding as ICC.1:2022 parametricCurveType, function type 3: Y = (aX + b)^g for X >= d, else cX.
   * `g` alone (a pure power) is function type 0.
   */
  readonly parametric: {
    readonly g: number;
    readonly a?: number;
    readonly b?: number;
    readonly c?: number;
    readonly d?: number;
  };
}

/** IEC 61966-2-1:1999, with the thresholds of its amendment 1:2003; Display P3 uses the same. */
export const srgbTransfer: TransferFunction = {
  decode: odd((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4)),
  encode: odd((l) => (l <= 0.0031308 ? 12.92 * l : 1.055 * l ** (1 / 2.4) - 0.055)),
  parametric: { g: 2.4, a: 1 / 1.055, b: 0.055 / 1.055, c: 1 / 12.92, d: 0.04045 },
};

/** Adobe RGB (1998) Color Image Encoding, version 2005-05, 4.3.1.2: the power 2 51/256. */
export const adobeRgbTransfer: TransferFunction = powerTransfer(563 / 256);

const alpha = 1.09929682680944;
const beta = 0.018053968510807;

/** ITU-R BT.2020-2, table 4: the camera's transfer function (alpha and beta with all the digits that make it continuous). */
export const rec2020Transfer: TransferFunction = {
  decode: odd((v) => (v < 4.5 * beta ? v / 4.5 : ((v + alpha - 1) / alpha) ** (1 / 0.45))),
  encode: odd((l) => (l < beta ? 4.5 * l : alpha * l ** 0.45 - (alpha - 1))),
  parametric: { g: 1 / 0.45, a: 1 / alpha, b: (alpha - 1) / alpha, c: 1 / 4.5, d: 4.5 * beta },
};

/** ISO 22028-2:2013, ROMM RGB: linear with slope 16 below 1/512. */
export const rommTransfer: TransferFunction = {
  decode: odd((v) => (v < 16 / 512 ? v / 16 : v ** 1.8)),
  encode: odd((l) => (l < 1 / 512 ? 16 * l : l ** (1 / 1.8))),
  parametric: { g: 1.8, a: 1, b: 0, c: 1 / 16, d: 16 / 512 },
};

/** No encoding at all. */
export const linearTransfer: TransferFunction = {
  decode: (v) => v,
  encode: (l) => l,
  parametric: { g: 1 },
};

function powerTransfer(g: number): TransferFunction {
  return { decode: odd((v) => v ** g), encode: odd((l) => l ** (1 / g)), parametric: { g } };
}

/** Continues a function of x >= 0 to negative x, f(-x) = -f(x). */
function odd(f: (x: number) => number): (x: number) => number {
  return (x) => (x < 0 ? -f(-x) : f(x));
}
