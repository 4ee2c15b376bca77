import type { Banding } from '../../facts/index.ts';
import type { HalfPlane } from '../half-plane.ts';
import { blockMeans } from '../kernels/block-means.ts';

/** The picture is cut into so many strips side by side, and each into so many parts from top to bottom. */
const strips = 8;
const partsMax = 384;
/** Fewer stripes over the height are shading. */
const cyclesMin = 3;
const cyclesMax = 80;
const cyclesStep = 0.25;
/** Strips agree in height and phase: |mean of waves| / mean of |waves|. Things in the picture do not. */
const agreementMin = 0.9;
/** From dark to bright, EV: less is not seen. */
const evMin = 0.06;
/** In each strip the stripes have at least this share of their height in the middle one of the strips. */
const evennessMin = 0.5;
/** An edge across the picture has all frequencies, fewer the higher; stripes stand out on both sides, so many times. */
const aboveLower = 1.3;
const aboveUpper = 2.5;
/** The window widens a wave to both sides by two cycles: its neighbours begin behind that. */
const besideCycles = 2.25;

/**
 * Looks for stripes that run across the whole picture with one height and one phase: light that pulsed while the rows
 * were read. `rowTimeS`: from one row of the sensor to the next, or null.
 */
export function readBanding(plane: HalfPlane, noise: number, rowTimeS: number | null): Banding | null {
  const parts = Math.min(partsMax, plane.heightPx);
  if (parts < 64) return null;
  const profiles = stripProfiles(plane, parts, noise);
  if (profiles.length < strips / 2) return null;
  const waves = wavesOf(profiles, parts);
  const best = waves.filter((wave) => isStriped(wave, waves)).sort((a, b) => b.height - a.height)[0];
  if (best === undefined) return null;
  const seconds = rowTimeS === null ? null : rowTimeS * plane.heightPx * 2;
  return { ev: 2 * best.height, cycles: best.cycles, hertz: seconds === null ? null : best.cycles / seconds };
}

function isStriped(wave: Wave, waves: readonly Wave[]): boolean {
  if (2 * wave.height < evMin || wave.agreement < agreementMin || wave.evenness < evennessMin) return false;
  const side = (from: number, to: number): number =>
    Math.max(0, ...waves.filter(({ cycles }) => cycles >= from && cycles <= to).map(({ height }) => height));
  const lower = side(wave.cycles - besideCycles - 1, wave.cycles - besideCycles);
  const upper = side(wave.cycles + besideCycles, wave.cycles + besideCycles + 2);
  return wave.height > aboveLower * lower && wave.height > aboveUpper * upper;
}

/** Light of each strip from top to bottom in stops, its slow shading taken off; strips in the dark are left out. */
function stripProfiles({ data, widthPx, heightPx }: HalfPlane, parts: number, noise: number): Float64Array[] {
  const means = new Float64Array(strips * parts);
  blockMeans(data, widthPx, heightPx, strips, parts, means);
  const profiles: Float64Array[] = [];
  for (let strip = 0; strip < strips; strip++) {
    const light = Float64Array.from({ length: parts }, (_, part) => means[part * strips + strip] ?? 0);
    if (light.some((value) => value <= Math.max(noise, 0))) continue;
    profiles.push(withoutShading(light.map(Math.log2)));
  }
  return profiles;
}

/** A cubic through the whole is shading of light and set; by orthogonal sums, so that no equations need be solved. */
function withoutShading(profile: Float64Array): Float64Array {
  const rest = Float64Array.from(profile);
  const basis: Float64Array[] = [];
  for (let degree = 0; degree <= 3; degree++) {
    const power = Float64Array.from(profile, (_, at) => ((2 * at) / (profile.length - 1) - 1) ** degree);
    for (const earlier of basis) subtract(power, earlier, dot(power, earlier) / dot(earlier, earlier));
    subtract(rest, power, dot(rest, power) / dot(power, power));
    basis.push(power);
  }
  return rest;
}

function dot(a: Float64Array, b: Float64Array): number {
  return a.reduce((sum, value, at) => sum + value * (b[at] ?? 0), 0);
}

function subtract(from: Float64Array, what: Float64Array, times: number): void {
  for (let at = 0; at < from.length; at++) from[at] = (from[at] ?? 0) - times * (what[at] ?? 0);
}

interface Wave {
  readonly cycles: number;
  /** Half of dark to bright, EV. */
  readonly height: number;
  readonly agreement: number;
  /** The weakest strip's height against the middle one's. */
  readonly evenness: number;
}

/** Fourier's waves under a Hann window, in steps of a quarter of a cycle. */
function wavesOf(profiles: readonly Float64Array[], parts: number): Wave[] {
  const windowed = profiles.map((profile) =>
    profile.map((value, at) => value * (1 - Math.cos((2 * Math.PI * (at + 0.5)) / parts))),
  );
  const waves: Wave[] = [];
  const most = Math.min(cyclesMax, parts / 4);
  for (let cycles = cyclesMin; cycles <= most; cycles += cyclesStep) {
    const each = windowed.map((profile) => waveIn(profile, (2 * Math.PI * cycles) / parts));
    const sizes = each.map(([real, imaginary]) => Math.hypot(real, imaginary)).sort((a, b) => a - b);
    const total = sizes.reduce((sum, size) => sum + size, 0);
    const size = Math.hypot(sumOf(each, 0), sumOf(each, 1));
    waves.push({
      cycles,
      height: (2 * size) / (parts * profiles.length),
      agreement: total === 0 ? 0 : size / total,
      evenness: (sizes[0] ?? 0) / Math.max(1e-12, sizes[sizes.length >> 1] ?? 0),
    });
  }
  return waves;
}

function sumOf(pairs: readonly (readonly [number, number])[], at: 0 | 1): number {
  return pairs.reduce((sum, pair) => sum + pair[at], 0);
}

/** Real and imaginary part of the sum over value · exp(i turn · place), by turning a pointer step by step. */
function waveIn(profile: Float64Array, turn: number): readonly [number, number] {
  const [stepCos, stepSin] = [Math.cos(turn), Math.sin(turn)];
  let [real, imaginary, c, s] = [0, 0, 1, 0];
  for (const value of profile) {
    real += value * c;
    imaginary += value * s;
    const next = c * stepCos - s * stepSin;
    s = s * stepCos + c * stepSin;
    c = next;
  }
  return [real, imaginary];
}
