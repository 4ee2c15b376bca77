import { applyMatrix, type Matrix3, type Vector3 } from '../colour/index.ts';
import type { Mosaic } from '../facts/index.ts';
import {
  type CurveTable,
  fitGamut,
  type LookTable,
  lookUpLattice,
  mapKeepingHue,
  workingLuminance,
} from '../look/index.ts';
import type { BinPlan } from './plan.ts';

/**
 * The plain form of every heavy step, one pixel at a time: obvious, slow, and the documentation of the kernels, which
 * are tested against it.
 */

/** Balanced camera RGB of the 2x2 block at (row, column) of the half-size picture, before highlights are looked after. */
export function binBlock(mosaic: Mosaic, plan: BinPlan, row: number, column: number): Vector3 {
  const at = (position: number): number => {
    const y = 2 * row + (position >> 1);
    const x = 2 * column + (position & 1);
    const value = mosaic.values[y * mosaic.widthPx + x] ?? 0;
    return (value - (plan.black[position] ?? 0)) * (plan.scale[position] ?? 0);
  };
  const [green0, green1] = plan.greenPositions;
  return [at(plan.redPosition), (at(green0) + at(green1)) / 2, at(plan.bluePosition)];
}

/** Share of a channel's range above which it counts as partly lost; at 1 it is wholly lost. */
const clippingStarts = 0.9;

/**
 * Highlights with lost channels rebuilt from those that are left. A lost channel shows less than there was, so it may only
 * be raised, and by how much is told by the others:
 *
 * 1. two lost: both are raised to the third, where that is brighter (a white surface beyond the first two limits);
 * 2. red or blue lost: raised to the smaller of the other two; green lost: to the mean of red and blue, since green lies
 *    between them for every light near the Planckian locus (a lamp goes orange and then white, never magenta);
 * 3. all lost: white, as bright as the brightest.
 *
 * Every rule is faded in by how far its channels are lost, so that no edge shows. Neutral stays neutral throughout.
 */
export function rebuildHighlights(rgb: Vector3, saturation: Vector3): Vector3 {
  const [r0, g0, b0] = rgb;
  const lostR = lostShare(r0 / saturation[0]);
  const lostG = lostShare(g0 / saturation[1]);
  const lostB = lostShare(b0 / saturation[2]);

  const r1 = r0 + lostR * Math.max(lostG * above(b0, r0), lostB * above(g0, r0));
  const g1 = g0 + lostG * Math.max(lostB * above(r0, g0), lostR * above(b0, g0));
  const b1 = b0 + lostB * Math.max(lostG * above(r0, b0), lostR * above(g0, b0));

  const r2 = r1 + lostR * above(Math.min(g1, b1), r1);
  const g2 = g1 + lostG * above((r1 + b1) / 2, g1);
  const b2 = b1 + lostB * above(Math.min(r1, g1), b1);

  const all = lostR * lostG * lostB;
  const brightest = Math.max(r2, g2, b2);
  return [r2 + all * (brightest - r2), g2 + all * (brightest - g2), b2 + all * (brightest - b2)];
}

/** Share of what is seen that a hint may be off before it is not believed at all. */
const hintOff = 0.25;

/** Share of a lost channel that a hint has to reach at the least, and from where on it is believed whole. */
const hintReach = 0.85;

/**
 * The same where light nearby tells what colour this light has: `hint`, red, green, blue in any scale. What is left of the
 * pixel says how bright that colour is here (least squares over the channels that are not lost), and a lost channel is raised
 * to what it then has. The hint is believed as far as it fits:
 *
 * 1. the channels that are left are as it says, within a quarter: other light is not painted with it;
 * 2. a lost channel had at least what the sensor saw of it: an orange wall says nothing of the white window in it;
 * 3. something is left: light that lost everything is white.
 */
export function rebuildHinted(rgb: Vector3, saturation: Vector3, hint: Vector3): Vector3 {
  const alone = rebuildHighlights(rgb, saturation);
  const hinted = hintedLight(rgb, saturation, hint);
  if (hinted === null) return alone;
  const channel = (at: 0 | 1 | 2): number => {
    const raised = rgb[at] + lostShare(rgb[at] / saturation[at]) * above(hinted.told[at], rgb[at]);
    return alone[at] + hinted.trust * (raised - alone[at]);
  };
  return [channel(0), channel(1), channel(2)];
}

/** What a hint tells of a pixel, before anything is raised; null where nothing is left of it. */
export function hintedLight(
  rgb: Vector3,
  saturation: Vector3,
  hint: Vector3,
): { readonly told: Vector3; readonly scale: number; readonly trust: number } | null {
  const lost = (at: 0 | 1 | 2): number => lostShare(rgb[at] / saturation[at]);
  const kept = (at: 0 | 1 | 2): number => 1 - lost(at);
  const sumOver = (of: (at: 0 | 1 | 2) => number): number => of(0) + of(1) + of(2);
  const square = sumOver((at) => kept(at) * hint[at] ** 2);
  if (!(square > 1e-9)) return null;
  const scale = sumOver((at) => kept(at) * hint[at] * rgb[at]) / square;
  const told: Vector3 = [scale * hint[0], scale * hint[1], scale * hint[2]];
  const seen = sumOver((at) => kept(at) * rgb[at]);
  const off = sumOver((at) => kept(at) * Math.abs(rgb[at] - told[at]));
  const reaches = (at: 0 | 1 | 2): number =>
    1 - lost(at) * (1 - smoothStep((told[at] / rgb[at] - hintReach) / (1 - hintReach)));
  const trust =
    smoothStep(1 - off / (hintOff * seen)) *
    reaches(0) *
    reaches(1) *
    reaches(2) *
    smoothStep(2 * Math.max(kept(0), kept(1), kept(2)));
  return { told, scale, trust };
}

/** How far another channel lies above a value; 0 where it lies below. */
function above(other: number, value: number): number {
  return Math.max(0, other - value);
}

/** 0 up to `clippingStarts`, 1 at saturation, smooth between (3 t^2 - 2 t^3). */
export function lostShare(shareOfRange: number): number {
  return smoothStep((shareOfRange - clippingStarts) / (1 - clippingStarts));
}

/** NaN, a share of nothing, is 0. */
function smoothStep(at: number): number {
  if (!(at > 0)) return 0;
  const t = Math.min(1, at);
  return t * t * (3 - 2 * t);
}

/** Hard limit for linear output: all channels end where the first one saturates, so that white stays white. */
export function clipHighlights(rgb: Vector3): Vector3 {
  return [Math.min(1, rgb[0]), Math.min(1, rgb[1]), Math.min(1, rgb[2])];
}

/**
 * Scene light in the working space to display light in the output space, with the tables of a look in the order that
 * `CompiledLook` states.
 */
export function renderPixel(
  balanced: Vector3,
  toScene: Matrix3,
  curve: CurveTable | null,
  table: LookTable | null,
  toOutput: Matrix3,
  luminance: Vector3,
): Vector3 {
  const scene = applyMatrix(toScene, balanced);
  const shown = curve === null ? scene : mapKeepingHue(scene, (value) => lookUp(curve, value));
  const display = table === null ? shown : lookUpLattice(table, fitGamut(shown, workingLuminance));
  return fitGamut(applyMatrix(toOutput, display), luminance);
}

/** The table at a scene value; see `CurveTable`. */
export function lookUp(curve: CurveTable, scene: number): number {
  if (scene <= 0) return scene * curve.slopeAtBlack;
  if (scene >= curve.sceneWhite) return 1;
  const last = curve.samples.length - 1;
  const position = Math.sqrt(scene / curve.sceneWhite) * last;
  const index = Math.min(last - 1, Math.floor(position));
  const before = curve.samples[index] ?? 0;
  const after = curve.samples[index + 1] ?? 1;
  return before + (after - before) * (position - index);
}
