/** CIE L*a*b* (D50) to the renderer's linear Rec.2020 (D65): reflectance as the set's light shows it. */
import { d65White, rec2020ToXyz } from './camera-model.ts';
import { invert3, multiply3, transform3 } from './matrix3.ts';

/** ICC.1 (ISO 15076-1) profile connection space white. */
const d50White: readonly [number, number, number] = [0.9642, 1, 0.8249];

/** Bradford cone responses, as in ICC.1:2010 annex E. */
const bradford: readonly number[] = [
  0.8951,
  0.2664,
  -0.1614, //
  -0.7502,
  1.7135,
  0.0367, //
  0.0389,
  -0.0685,
  1.0296,
];

const xyzToRec2020 = invert3(rec2020ToXyz);
const d50ToD65 = adaptation(d50White, d65White);

/** Linear Rec.2020 reflectance; 1, 1, 1 is a perfect diffuser. A channel may be slightly negative for strong colours. */
export function labToScene(lab: readonly [number, number, number]): [number, number, number] {
  return transform3(xyzToRec2020, labToXyzD65(lab));
}

/** CIE XYZ in the set's light, a perfect diffuser at Y = 1. */
export function labToXyzD65(lab: readonly [number, number, number]): [number, number, number] {
  return transform3(d50ToD65, labToXyz(lab));
}

/** CIE 15:2004, section 8.2.1, inverted. */
function labToXyz([L, a, b]: readonly [number, number, number]): [number, number, number] {
  const fy = (L + 16) / 116;
  const invert = (f: number): number => (f > 6 / 29 ? f ** 3 : 3 * (6 / 29) ** 2 * (f - 4 / 29));
  return [d50White[0] * invert(fy + a / 500), d50White[1] * invert(fy), d50White[2] * invert(fy - b / 200)];
}

/** Bradford's linear adaptation from one white to another, XYZ, row-major. */
export function adaptation(from: readonly number[], to: readonly number[]): number[] {
  const source = transform3(bradford, from);
  const destination = transform3(bradford, to);
  const scale = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  for (const k of [0, 1, 2]) scale[k * 4] = (destination[k] ?? 0) / (source[k] ?? 1);
  return multiply3(invert3(bradford), multiply3(scale, bradford));
}
