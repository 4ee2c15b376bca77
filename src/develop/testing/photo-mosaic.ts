import { rgbSpaces } from '../../colour/index.ts';
import type { Mosaic } from '../../facts/index.ts';
import { normalNumbers } from './normal-numbers.ts';

/** Noise put into a mosaic: variance in raw values = read + shot x value. */
export interface MadeNoise {
  readonly read: number;
  readonly shot: number;
}

const black = 512;
const white = 16_383;
const filters = [0, 1, 1, 2] as const;
const multipliers = [2, 1, 1.5] as const;

/**
 * What a camera with sRGB's primaries would have seen of scene light `at(row, column, channel)`, 1 = diffuse white, half a
 * stop below saturation.
 */
export function madeMosaic(
  widthPx: number,
  heightPx: number,
  at: (row: number, column: number, channel: 0 | 1 | 2) => number,
  noise: MadeNoise | null = null,
  orientation: Mosaic['orientation'] = 1,
): Mosaic {
  const normal = normalNumbers(7);
  const values = new Uint16Array(widthPx * heightPx);
  for (let row = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++) {
      const filter = filters[(row % 2) * 2 + (column % 2)] ?? 1;
      const light = at(row, column, filter);
      const clean = (light / Math.SQRT2 / multipliers[filter]) * (white - black);
      const noisy = noise === null ? 0 : normal() * Math.sqrt(noise.read + noise.shot * Math.max(0, clean));
      values[row * widthPx + column] = Math.max(0, Math.min(white, Math.round(black + clean + noisy)));
    }
  }
  return {
    values,
    widthPx,
    heightPx,
    filters,
    blackLevels: [black, black, black, black],
    whiteLevel: white,
    asShotMultipliers: multipliers,
    xyzToCamera: rgbSpaces.srgb.fromXyz,
    orientation,
    baselineExposureEv: 0.5,
  };
}
