import type { Finding } from '../facts/index.ts';
import type { CharacteristicCurve } from './schema.ts';

/** What of a characteristic curve shapes the line; the density range is laid on at the end. */
export type CurveShape = Omit<CharacteristicCurve, 'densityRange'>;

/** A curve as functions of one scene-linear channel value. */
export interface CurveFunction {
  /** Display-linear value, 0 … 1 for scene >= 0; negative scene values continue with the slope at black. */
  readonly evaluate: (scene: number) => number;
  /** Slope at black, display over scene. */
  readonly slopeAtBlack: number;
  /** The scene value at which 1 is reached. */
  readonly sceneWhite: number;
}

/** The curve of a look; `slopeAtPivot`, on logarithmic axes, is its gamma where it can have that. */
export interface GammaFunction extends CurveFunction {
  readonly slopeAtPivot: number;
}

/**
 * The exact curve of a look; infinitely smooth and monotone between black and white.
 *
 * With t = scene / pivot and tau = 2^-toeEv, straight part and toe are one power with its foot moved to tau,
 *
 *     a(t) = t ((t + tau) / (1 + tau))^(g - 1)            slope g far above tau, slope 1 far below, a(1) = 1
 *
 * and the shoulder is a soft minimum of that and a constant (a Hill function with exponent `shoulder` = p),
 *
 *     y = N (z a^-p + 1)^(-1/p)                            z and N such that y(pivot) = pivot and y(white) = 1.
 *
 * The shoulder flattens the pivot a little, so g is searched for until the slope at the pivot is the look's gamma. A long toe
 * with a far white cannot be that flat (pivot 0.05, gamma 0.5, toe 1 EV, white 10 EV): then it is as flat as still reaches
 * white, `slopeAtPivot` says how steep that is, and `curveFindings` tells it.
 */
export function curveFunction(curve: CurveShape): GammaFunction {
  const { pivot, shoulder } = curve;
  const { g, z, tau } = solve(curve);
  const tWhite = 2 ** curve.whiteEv;
  const n = 1 + z * straight(tWhite, g, tau) ** -shoulder;
  const evaluateInside = (t: number): number =>
    (n / (1 + z * straight(t, g, tau) ** -shoulder)) ** (1 / shoulder);
  // Near black y ~ a (n / z)^(1/p), and a ~ t (tau / (1 + tau))^(g - 1).
  const slopeAtBlack = ((n / z) ** (1 / shoulder) * (tau / (1 + tau)) ** (g - 1)) / pivot;
  return {
    evaluate: (scene) => {
      if (scene <= 0) return scene * slopeAtBlack;
      const t = scene / pivot;
      return t >= tWhite ? 1 : evaluateInside(t);
    },
    slopeAtBlack,
    sceneWhite: pivot * tWhite,
    slopeAtPivot: slopeAtPivot(g, z, tau),
  };
}

/** `look.gamma-not-held` where the slope at the pivot is over a hundredth of gamma off. */
export function curveFindings(curve: CurveShape): readonly Finding[] {
  const { gamma } = curve;
  const slope = curveFunction(curve).slopeAtPivot;
  if (Math.abs(slope / gamma - 1) < 0.01) return [];
  return [{ code: 'look.gamma-not-held', args: { gamma, slope: Math.round(slope * 100) / 100 } }];
}

function straight(t: number, g: number, tau: number): number {
  return t * ((t + tau) / (1 + tau)) ** (g - 1);
}

interface Solution {
  readonly g: number;
  readonly z: number;
  readonly tau: number;
}

/** Finds the inner slope g by halving: the slope at the pivot rises with g. */
function solve(curve: CurveShape): Solution {
  const tau = 2 ** -curve.toeEv;
  let low = 0;
  // Gamma 3 of the hardest shape there is (pivot 0.5, shoulder 0.25, toe 1 EV) takes 28.
  let high = 32;
  // 60 halvings exhaust a double.
  for (let step = 0; step < 60; step++) {
    const g = (low + high) / 2;
    const z = shoulderWeight(curve, g, tau);
    if (z === null || slopeAtPivot(g, z, tau) < curve.gamma) low = g;
    else high = g;
  }
  return { g: high, z: shoulderWeight(curve, high, tau) ?? 1e12, tau };
}

/** z from the two conditions y(pivot) = pivot, y(white) = 1; null where the straight part does not reach white by then. */
function shoulderWeight(curve: CurveShape, g: number, tau: number): number | null {
  const ratio = curve.pivot ** -curve.shoulder;
  const atWhite = ratio * straight(2 ** curve.whiteEv, g, tau) ** -curve.shoulder;
  return atWhite < 1 ? (ratio - 1) / (1 - atWhite) : null;
}

function slopeAtPivot(g: number, z: number, tau: number): number {
  return (1 + (g - 1) / (1 + tau)) * (z / (1 + z));
}
