import {
  adaptWhite,
  applyMatrix,
  d50Xyz,
  d65Xyz,
  deltaE2000,
  rgbSpaces,
  type Vector3,
  xyzToLab,
} from '../../src/colour/index.ts';
import { renderMosaic } from '../../src/develop/index.ts';
import type { Mosaic, TargetReading } from '../../src/facts/index.ts';
import type { Rgb8 } from '../../src/image/index.ts';
import { greyPatches, publishedPatches } from '../../src/judge/colour/published-patches.ts';
import { compileLook, neutralLook } from '../../src/look/index.ts';

/** CIEDE2000 of the patches in the rendering by the neutral look, exposure put right, and how far greys are from grey in a*, b*. */
export function shownErrors(
  mosaic: Mosaic,
  { place, edition }: TargetReading,
): { readonly mean: number; readonly greyAb: number } {
  const { picture } = renderMosaic(mosaic, compileLook(neutralLook), 'half');
  const { lab, xyz } = publishedPatches[edition];
  const seen = xyz.map((_, index) => patchXyz(picture, place.corners, index % 6, Math.floor(index / 6)));
  const sums = greyPatches.map((patch) => [xyz[patch - 1]?.[1] ?? 0, seen[patch - 1]?.[1] ?? 0]);
  const gain =
    sums.reduce((sum, [a = 0, b = 0]) => sum + a * b, 0) / sums.reduce((sum, [, b = 0]) => sum + b * b, 0);
  const labs = seen.map(([x, y, z]) => xyzToLab([gain * x, gain * y, gain * z]));
  const errors = labs.map((own, index) => deltaE2000(own, lab[index] ?? own));
  const greyAb = greyPatches.map((patch) => Math.hypot(labs[patch - 1]?.[1] ?? 0, labs[patch - 1]?.[2] ?? 0));
  return { mean: errors.reduce((a, b) => a + b) / errors.length, greyAb: Math.max(...greyAb) };
}

/** XYZ D50 of the inner third of a patch; the panel is flat to the camera enough to be laid out between its corners. */
function patchXyz(
  { data, widthPx, heightPx }: Rgb8,
  [a, b, c, d]: TargetReading['place']['corners'],
  column: number,
  row: number,
): Vector3 {
  const { transfer, toXyz } = rgbSpaces.srgb;
  const sum = [0, 0, 0];
  const steps = 9;
  for (let j = 0; j < steps; j++) {
    for (let i = 0; i < steps; i++) {
      const u = (column + 0.33 + (0.33 * i) / (steps - 1)) / 6;
      const v = (row + 0.33 + (0.33 * j) / (steps - 1)) / 4;
      const at = (axis: 0 | 1): number =>
        (a[axis] * (1 - u) + b[axis] * u) * (1 - v) + (d[axis] * (1 - u) + c[axis] * u) * v;
      const from = (Math.floor(at(1) * heightPx) * widthPx + Math.floor(at(0) * widthPx)) * 3;
      for (const channel of [0, 1, 2])
        sum[channel] = (sum[channel] ?? 0) + transfer.decode((data[from + channel] ?? 0) / 255) / steps ** 2;
    }
  }
  const [r = 0, g = 0, blue = 0] = sum;
  return applyMatrix(adaptWhite(d65Xyz, d50Xyz), applyMatrix(toXyz, [r, g, blue]));
}
