import { applyMatrix, invertKnownMatrix, type Matrix3, type Vector3 } from './matrix.ts';

/**
 * OKLab: B. Ottosson, "A perceptual color space for image processing" (2020), with the matrices in the full precision
 * that CSS Color 4 (section 9.2, sample code) recomputed for D65 = 0.3127, 0.3290.
 */
export const xyzToOklabCone: Matrix3 = [
  0.819022437996703, 0.3619062600528904, -0.1288737815209879, 0.0329836539323885, 0.9292868615863434,
  0.0361446663506424, 0.0481771893596242, 0.2642395317527308, 0.6335478284694309,
];
export const coneToOklab: Matrix3 = [
  0.210454268309314, 0.7936177747023054, -0.0040720430116193, 1.9779985324311684, -2.4285922420485799,
  0.450593709617411, 0.0259040424655478, 0.7827717124575296, -0.8086757549230774,
];
const coneToXyz = invertKnownMatrix(xyzToOklabCone);
export const oklabToCone: Matrix3 = invertKnownMatrix(coneToOklab);

/** OKLab (L 0 … 1, a, b) of XYZ relative to D65. */
export function xyzToOklab(xyz: Vector3): Vector3 {
  const [l, m, s] = applyMatrix(xyzToOklabCone, xyz);
  return applyMatrix(coneToOklab, [Math.cbrt(l), Math.cbrt(m), Math.cbrt(s)]);
}

/** XYZ relative to D65 of OKLab. */
export function oklabToXyz(lab: Vector3): Vector3 {
  const [l, m, s] = applyMatrix(oklabToCone, lab);
  return applyMatrix(coneToXyz, [l ** 3, m ** 3, s ** 3]);
}
