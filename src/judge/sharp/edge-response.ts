/**
 * From an edge's profile to its response by frequency: the edge-based spatial frequency response (e-SFR) of ISO
 * 12233:2017, whose steps are: samples placed by their distance from the edge in bins a quarter of a pixel wide, the
 * derivative of that profile, a window, the modulus of its Fourier transform, corrected for the derivative filter.
 *
 * Where this goes other ways, and why:
 * - Samples are placed along the edge's normal, so that the angle needs no correction afterwards, and green of a mosaic is
 *   taken where it lies.
 * - The profile is that of a Gaussian edge, known as a formula, plus what the samples leave over. Only that rest goes
 *   through bins, filter and window, so that these cost a Gaussian edge nothing at all and others little.
 * - The filter [-1, 0, 1] / 2 over bins of width w passes sin(2π f w) / (2π f w), a bin sin(π f w) / (π f w): both are
 *   divided out from these formulas, since those printed in the 2014 and 2017 editions hold misprints.
 * - The window is flat over the line and ends in a cosine (the idea of the 2023 edition, from memory): a Hamming window
 *   narrows wide lines.
 */

/** The fitted part of an edge. */
export interface GaussEdge {
  readonly sigmaPx: number;
  /** In the samples' unit. */
  readonly rise: number;
}

/** Steps of frequency, cycles/pixel. */
const stepCyclesPerPx = 1 / 512;
/** Beyond two cycles/pixel nothing is left of any lens. */
const cyclesPerPxMax = 2;

/** Response at a frequency, 1 at frequency 0. */
export function edgeResponse(
  { sigmaPx, rise }: GaussEdge,
  rest: Float64Array,
  binPx: number,
): (cyclesPerPx: number) => number {
  const line = restLine(rest, binPx, windowReach(sigmaPx));
  const middle = (rest.length - 1) / 2;
  return (frequency) => {
    let real = 0;
    let imaginary = 0;
    for (let bin = 0; bin < line.length; bin++) {
      const value = line[bin] ?? 0;
      if (value === 0) continue;
      const phase = 2 * Math.PI * frequency * (bin - middle) * binPx;
      real += value * Math.cos(phase);
      imaginary -= value * Math.sin(phase);
    }
    const filters = sinc(2 * frequency * binPx) * sinc(frequency * binPx);
    const share = (binPx / rise) * Math.min(10, 1 / Math.max(1e-6, filters));
    const gauss = Math.exp(-2 * (Math.PI * sigmaPx * frequency) ** 2);
    return Math.hypot(gauss + real * share, imaginary * share);
  };
}

/** Frequency at which the response has fallen to `level`, cycles/pixel; null where it never does below 2. */
export function frequencyAt(response: (cyclesPerPx: number) => number, level: number): number | null {
  let last = 1;
  for (let frequency = stepCyclesPerPx; frequency <= cyclesPerPxMax; frequency += stepCyclesPerPx) {
    const value = response(frequency);
    if (value <= level) return frequency - (stepCyclesPerPx * (level - value)) / (last - value);
    last = value;
  }
  return null;
}

/** How far before its middle the profile crosses 10 %, and how far behind it 90 %, pixels. Together the 10-90 % rise. */
export function riseEnds(
  { sigmaPx, rise }: GaussEdge,
  rest: Float64Array,
  binPx: number,
): { readonly beforePx: number; readonly behindPx: number } {
  return {
    beforePx: rise10 * sigmaPx + shiftPx(-rise10),
    behindPx: rise10 * sigmaPx + shiftPx(rise10),
  };

  /** How far the rest moves a crossing outwards: its mean about there, by the slope there. */
  function shiftPx(t: number): number {
    const slope = (rise * Math.exp(-0.5 * t * t)) / (Math.sqrt(2 * Math.PI) * sigmaPx);
    const at = meanAbout(rest, binPx, t * sigmaPx, Math.max(0.35 * sigmaPx, binPx));
    // More light than the Gaussian's there: on the dark side the crossing lies further out, on the bright side nearer.
    return (t < 0 ? at : -at) / slope;
  }
}

/** Φ(1.2816) = 0.9. */
const rise10 = 1.281551565545;

function meanAbout(rest: Float64Array, binPx: number, atPx: number, reachPx: number): number {
  const middle = (rest.length - 1) / 2;
  const first = Math.max(0, Math.round((atPx - reachPx) / binPx + middle));
  const last = Math.min(rest.length - 1, Math.round((atPx + reachPx) / binPx + middle));
  let sum = 0;
  for (let bin = first; bin <= last; bin++) sum += rest[bin] ?? 0;
  return last < first ? 0 : sum / (last - first + 1);
}

/** The window is flat up to `flatPx` from the edge and zero from `endPx` on. */
function windowReach(sigmaPx: number): { flatPx: number; endPx: number } {
  return { flatPx: 3 * sigmaPx + 1, endPx: 5 * sigmaPx + 2 };
}

/** Derivative of the rest by the filter [-1, 0, 1] / 2, under the window. */
function restLine(
  rest: Float64Array,
  binPx: number,
  { flatPx, endPx }: ReturnType<typeof windowReach>,
): Float64Array {
  const line = new Float64Array(rest.length);
  const middle = (rest.length - 1) / 2;
  for (let bin = 1; bin + 1 < rest.length; bin++) {
    const slope = ((rest[bin + 1] ?? 0) - (rest[bin - 1] ?? 0)) / (2 * binPx);
    const away = Math.abs(bin - middle) * binPx;
    const share =
      away <= flatPx
        ? 1
        : away >= endPx
          ? 0
          : (1 + Math.cos((Math.PI * (away - flatPx)) / (endPx - flatPx))) / 2;
    line[bin] = slope * share;
  }
  return line;
}

function sinc(x: number): number {
  return x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
}
