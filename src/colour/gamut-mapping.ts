import { applyMatrix, invertKnownMatrix, type Matrix3, type Vector3 } from './matrix.ts';
import { oklabToXyz, xyzToOklab } from './oklab.ts';

/** Distances in OKLab that the eye does not tell apart, and how near the search comes: CSS Color 4, 13.2.2. */
export const justNoticed = 0.02;
export const chromaStep = 0.0001;

/**
 * Linear RGB of a gamut, within 0 … 1, for linear RGB that may lie outside: what fits stays as it is; of what does not,
 * OKLCh lightness and hue are kept and chroma gives way, until cutting what is left over changes less than is noticed.
 * W3C CSS Color Module Level 4, section 13.2.2, "CSS gamut mapping algorithm", with its numbered steps; the colour given
 * back lies in linear light, where cutting at 0 and 1 is the same as in encoded values.
 *
 * `toXyz`: linear RGB to XYZ relative to D65.
 */
export function mapIntoGamut(rgb: Vector3, toXyz: Matrix3): Vector3 {
  // 6 comes first: nearly everything fits.
  if (isInside(rgb)) return rgb;
  const fromXyz = invertKnownMatrix(toXyz);
  // 2 to 4.
  const origin = xyzToOklab(applyMatrix(toXyz, rgb));
  if (origin[0] >= 1) return [1, 1, 1];
  if (origin[0] <= 0) return [0, 0, 0];
  const toRgb = (lab: Vector3): Vector3 => applyMatrix(fromXyz, oklabToXyz(lab));
  const cutDistance = (cut: Vector3, lab: Vector3): number => {
    const [L, a, b] = xyzToOklab(applyMatrix(toXyz, cut));
    return Math.hypot(L - lab[0], a - lab[1], b - lab[2]);
  };
  // 10: cutting alone may do. 11 to 14: else chroma is halved in; shares of the colour's own stand for it.
  let cut = cutOff(rgb);
  if (cutDistance(cut, origin) < justNoticed) return cut;
  const chroma = Math.hypot(origin[1], origin[2]);
  let low = 0;
  let high = 1;
  let lowIsInside = true;
  while ((high - low) * chroma > chromaStep) {
    const share = (low + high) / 2;
    const lab: Vector3 = [origin[0], origin[1] * share, origin[2] * share];
    const found = toRgb(lab);
    if (lowIsInside && isInside(found)) {
      low = share;
      continue;
    }
    cut = cutOff(found);
    const distance = cutDistance(cut, lab);
    if (distance >= justNoticed) high = share;
    else if (justNoticed - distance < chromaStep) return cut;
    else {
      lowIsInside = false;
      low = share;
    }
  }
  return cut;
}

function isInside([r, g, b]: Vector3): boolean {
  return Math.min(r, g, b) >= 0 && Math.max(r, g, b) <= 1;
}

function cutOff([r, g, b]: Vector3): Vector3 {
  return [cutOne(r), cutOne(g), cutOne(b)];
}

function cutOne(value: number): number {
  return Math.min(1, Math.max(0, value));
}
