import {
  adaptWhite,
  applyMatrix,
  type Chromaticity,
  d50Xyz,
  d65Xyz,
  type Vector3,
  xyToDuv,
  xyToTemperature,
  xyzToLab,
  xyzToXy,
} from '../../colour/index.ts';
import type { GreyError } from '../../facts/index.ts';

/** What greys say of the balance. XYZ D50, their exposure put right; null where there are none. */
export function greyError(measured: readonly Vector3[], published: readonly Vector3[]): GreyError | null {
  if (measured.length === 0 || measured.some(([, Y]) => !(Y > 0))) return null;
  const [own, wanted] = [chromaticity(measured), chromaticity(published)];
  const distances = measured.map((xyz, index) => {
    const [, a, b] = xyzToLab(xyz);
    const [, a0, b0] = xyzToLab(published[index] ?? xyz);
    return Math.hypot(a - a0, b - b0);
  });
  return {
    duv: xyToDuv(own) - xyToDuv(wanted),
    deltaK: xyToTemperature(own) - xyToTemperature(wanted),
    deltaAb: Math.max(...distances),
  };
}

const toD65 = adaptWhite(d50Xyz, d65Xyz);

/** Chromaticity under D65 of XYZ D50. */
export function chromaticityD65(xyz: Vector3): Chromaticity {
  return xyzToXy(applyMatrix(toD65, xyz));
}

/** Of the sum. */
function chromaticity(colours: readonly Vector3[]): Chromaticity {
  const total = colours.reduce<Vector3>((sum, [x, y, z]) => [sum[0] + x, sum[1] + y, sum[2] + z], [0, 0, 0]);
  return chromaticityD65(total);
}
