/**
 * The picture a camera makes of its own raw: a bin or a demosaic, its balance, its matrix, its curve, sRGB. Deliberately
 * its own small path, not the house's: what a preview looks like must not follow what `develop` does.
 */
import { asShotNeutral, baselineExposureEv, blackLevels, whiteLevel, xyzToCamera } from './camera-model.ts';
import { type BinInput, binToDisplay } from './kernels/bin-to-display.ts';
import { mosaicToDisplay } from './kernels/mosaic-to-display.ts';
import { invert3, multiply3 } from './matrix3.ts';

export interface SmallPicture {
  /** RGB interleaved, 8 bit, sRGB (IEC 61966-2-1). */
  readonly rgb: Uint8Array<ArrayBuffer>;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** CIE XYZ (D65) to linear sRGB, IEC 61966-2-1; digits as in CSS Color 4, conversions.js. */
const xyzToSrgb: readonly number[] = [
  3.2409699419045226,
  -1.537383177570094,
  -0.4986107602930034, //
  -0.9692436362808796,
  1.8759675015077202,
  0.04155505740717559, //
  0.05563007969699366,
  -0.20397695888897652,
  1.0569715142428786,
];

const curveEntries = 4096;

/** Half-size picture of a mosaic, as the sensor lies. Both sides are halved. */
export function cameraPicture(mosaic: Uint16Array, widthPx: number, heightPx: number): SmallPicture {
  const half = { widthPx: widthPx >> 1, heightPx: heightPx >> 1 };
  const rgb = new Uint8Array(half.widthPx * half.heightPx * 3);
  binToDisplay(displayInput(mosaic, widthPx, heightPx), rgb);
  return { rgb, ...half };
}

/** Full-size picture of a mosaic, as the sensor lies: what the camera's own JPEG is made of. */
export function fullCameraPicture(mosaic: Uint16Array, widthPx: number, heightPx: number): SmallPicture {
  const rgb = new Uint8Array(widthPx * heightPx * 3);
  mosaicToDisplay(displayInput(mosaic, widthPx, heightPx), rgb);
  return { rgb, widthPx, heightPx };
}

function displayInput(mosaic: Uint16Array, widthPx: number, heightPx: number): BinInput {
  return {
    mosaic,
    widthPx,
    heightPx,
    blackLevels,
    scale: (curveEntries - 1) / (whiteLevel - 512),
    balance: Float32Array.from(asShotNeutral, (neutral) => 1 / neutral),
    toDisplay: Float32Array.from(balancedCameraToSrgb()),
    curve: displayCurve(),
  };
}

/** Rows sum to 1: what is balanced neutral stays neutral. */
function balancedCameraToSrgb(): number[] {
  const toSrgb = multiply3(xyzToSrgb, invert3(xyzToCamera));
  const unbalanced = toSrgb.map((value, index) => value * (asShotNeutral[index % 3] ?? 1));
  return unbalanced.map((value, index) => {
    const row = Math.floor(index / 3) * 3;
    return value / unbalanced.slice(row, row + 3).reduce((sum, entry) => sum + entry, 0);
  });
}

/** Sensor share 0 … 1 to 8-bit sRGB through an exponential shoulder with a light toe. */
function displayCurve(): Uint8Array {
  const whiteAt = 2 ** baselineExposureEv;
  const shoulder = (x: number): number => (1 - Math.exp(-1.5 * x)) / (1 - Math.exp(-1.5 * whiteAt));
  return Uint8Array.from({ length: curveEntries }, (_, index) => {
    const scene = (index / (curveEntries - 1)) * whiteAt;
    return Math.round(255 * srgbEncode(shoulder(scene) ** 1.15));
  });
}

/** IEC 61966-2-1. */
function srgbEncode(x: number): number {
  return x <= 0.0031308 ? 12.92 * x : 1.055 * x ** (1 / 2.4) - 0.055;
}
