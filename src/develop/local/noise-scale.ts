import type { Mosaic } from '../../facts/index.ts';
import type { NoiseProfile } from '../noise-profile.ts';
import type { BinPlan } from '../plan.ts';

/**
 * Noise of balanced camera light as detail sees it: variance of lightness = `read` + `shot` x light, if each pixel had been
 * seen by all three filters. On the scale of {@link stabilise} its standard deviation is 1.
 */
export interface NoiseScale {
  readonly shot: number;
  readonly read: number;
  /** Standard deviations of red less green and blue less green on that scale. */
  readonly red: number;
  readonly blue: number;
}

/** Light at which the colours' share of noise is taken: 18 % grey, about. It changes slowly. */
const greyLight = 0.127;

/** Where a frame does not tell its noise: none to speak of, and a scale that is a square root. */
export const noNoise: NoiseScale = { shot: 2e-5, read: 1e-6, red: 0, blue: 0 };

/** The scale of a mosaic's noise, in balanced camera light. */
export function noiseScale(noise: NoiseProfile, bin: BinPlan, filters: Mosaic['filters']): NoiseScale {
  const of = (filter: number): { readonly read: number; readonly shot: number } => {
    const positions = ([0, 1, 2, 3] as const).filter((position) => filters[position] === filter);
    const sum = positions.reduce(
      ({ read, shot }, position) => {
        const { readVariance, shotPerValue } = noise[position];
        const scale = bin.scale[position];
        return { read: read + scale * scale * readVariance, shot: shot + scale * shotPerValue };
      },
      { read: 0, shot: 0 },
    );
    return { read: sum.read / positions.length, shot: sum.shot / positions.length };
  };
  const [r, g, b] = [of(0), of(1), of(2)];
  // (r + 2 g + b) / 4.
  const read = Math.max(1e-10, (r.read + 4 * g.read + b.read) / 16);
  // Light without shot noise has a straight scale, and the formula divides by it.
  const shot = Math.max(0.02 * Math.sqrt(read), (r.shot + 4 * g.shot + b.shot) / 16);
  const at = ({ read: floor, shot: slope }: typeof r): number => floor + slope * greyLight;
  const lightness = read + shot * greyLight;
  return {
    shot,
    read,
    red: Math.sqrt((at(r) + at(g)) / lightness),
    blue: Math.sqrt((at(b) + at(g)) / lightness),
  };
}

/**
 * Balanced light on a scale where noise of lightness has a standard deviation of 1, the generalised Anscombe transform:
 * F. Murtagh, J.-L. Starck, A. Bijaoui: Image restoration with noise suppression using a multiresolution support, Astronomy
 * and Astrophysics Supplement 112, 1995 (from memory). Below 0, where there is nothing but noise, its tangent.
 */
export function stabilise({ shot, read }: Pick<NoiseScale, 'shot' | 'read'>, light: number): number {
  const foot = (3 / 8) * shot * shot + read;
  if (light <= 0) return (2 / shot) * Math.sqrt(foot) + light / Math.sqrt(foot);
  return (2 / shot) * Math.sqrt(shot * light + foot);
}

/** The way back: the plain inverse, so that what is not changed is what it was. */
export function unstabilise({ shot, read }: Pick<NoiseScale, 'shot' | 'read'>, value: number): number {
  const foot = (3 / 8) * shot * shot + read;
  const atZero = (2 / shot) * Math.sqrt(foot);
  if (value <= atZero) return (value - atZero) * Math.sqrt(foot);
  return (((value * shot) / 2) ** 2 - foot) / shot;
}
