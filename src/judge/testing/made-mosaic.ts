import type { Mosaic } from '../../facts/index.ts';
import { gaussian } from './made-light.ts';

export const madeBlacks = [512, 515, 510, 513] as const;
export const madeWhite = 15_871;

/**
 * An RGGB mosaic whose every sample is `share` of saturation (1 saturates; more is cut), with noise of so many steps.
 * Neutral: the multipliers are 1, scene value 1.0 lies `baselineExposureEv` below saturation.
 */
export function madeMosaic(
  widthPx: number,
  heightPx: number,
  share: (x: number, y: number, filter: number) => number,
  noise = 0,
  baselineExposureEv = 0.42,
): Mosaic {
  const random = gaussian(widthPx + heightPx);
  const filters = [0, 1, 1, 2] as const;
  const values = Uint16Array.from({ length: widthPx * heightPx }, (_, at) => {
    const [x, y] = [at % widthPx, Math.floor(at / widthPx)];
    const place = (y % 2) * 2 + (x % 2);
    const black = madeBlacks[place] ?? 0;
    const value = black + share(x, y, filters[place] ?? 1) * (madeWhite - black) + noise * random();
    return Math.min(madeWhite, Math.max(0, Math.round(value)));
  });
  return {
    values,
    widthPx,
    heightPx,
    filters,
    blackLevels: madeBlacks,
    whiteLevel: madeWhite,
    asShotMultipliers: [1, 1, 1],
    xyzToCamera: null,
    orientation: 1,
    baselineExposureEv,
  };
}
