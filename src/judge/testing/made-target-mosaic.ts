import type { Matrix3, Vector3 } from '../../colour/index.ts';
import type { Mosaic } from '../../facts/index.ts';
import type { Rgb8 } from '../../image/index.ts';
import { srgbDecodeTable } from '../srgb-light.ts';
import { madeMosaic } from './made-mosaic.ts';

/** A camera for tests: what it makes of linear sRGB before balance, at an exposure. */
export interface MadeCamera {
  /** Linear sRGB to camera RGB. */
  readonly fromSrgb: Matrix3;
  /** Share of saturation that linear 1.0 of each channel gives. */
  readonly exposure: number;
  readonly multipliers: Vector3;
  readonly xyzToCamera: Matrix3 | null;
  readonly noise?: number;
}

/** A picture as that camera's mosaic: each pixel becomes 2 x 2 samples. */
export function mosaicOfPicture({ data, widthPx, heightPx }: Rgb8, camera: MadeCamera): Mosaic {
  const decode = srgbDecodeTable();
  const { fromSrgb, exposure, multipliers, xyzToCamera, noise = 0 } = camera;
  const share = (x: number, y: number, filter: number): number => {
    const at = ((y >> 1) * widthPx + (x >> 1)) * 3;
    const row = fromSrgb.slice(3 * filter, 3 * filter + 3);
    const light = row.reduce((sum, weight, k) => sum + weight * (decode[data[at + k] ?? 0] ?? 0), 0);
    const multiplier = multipliers[filter === 0 ? 0 : filter === 1 ? 1 : 2];
    return Math.max(0, (exposure * light) / multiplier);
  };
  const mosaic = madeMosaic(2 * widthPx, 2 * heightPx, share, noise);
  return { ...mosaic, asShotMultipliers: multipliers, xyzToCamera };
}
