import type { Matrix3, Vector3 } from '../colour/index.ts';
import type { Finding } from '../facts/index.ts';
import type { CurveFunction } from './curve.ts';
import { fitGamut } from './fit-gamut.ts';
import { mapKeepingHue } from './keep-hue.ts';
import { type LocalParts, localParts } from './local-parts.ts';
import { lookSteps, workingLuminance } from './look-function.ts';
import { type LookProfile, unknownProfile } from './profile.ts';
import type { Look } from './schema.ts';
import type { Stage } from './stages/stage.ts';
import { type Lattice, lookUpLattice, sampleLattice } from './table/lattice.ts';
import { displayShaper } from './table/shaper.ts';
import { compareStages, probeColours, type TableError, tableErrorGoal } from './table/table-error.ts';

/**
 * What an executor needs of a look, in the order of use: scene-linear Rec.2020 times `matrix`; `curve` on the largest and
 * the smallest channel (`mapKeepingHue`); into 0 … 1 (`fitGamut`), then `table`. What is steep is in the matrix and the
 * curve, which are exact to 2e-6; what mixes channels is in the table.
 */
export interface CompiledLook {
  /** Balance and exposure. */
  readonly matrix: Matrix3;
  /** Null: values pass as they are. */
  readonly curve: CurveTable | null;
  /** Null: the look has tone only. Never without a curve. */
  readonly table: LookTable | null;
  readonly local: LocalParts;
  /** What had to be assumed: codes `look.*`. */
  readonly findings: readonly Finding[];
}

/** Colour on display light: a shaper and a lattice, with how far it is from the exact formula. */
export interface LookTable extends Lattice {
  readonly error: TableError;
}

/**
 * A curve sampled evenly in the square root of the scene value: fine steps near black, where the eye is, and a square
 * root costs an executor one instruction. `samples[i]` is the display value at scene = sceneWhite (i / (length - 1))^2;
 * between samples, linear. At or above `sceneWhite` the value is 1, below 0 it is scene * slopeAtBlack.
 */
export interface CurveTable {
  readonly samples: Float32Array<ArrayBuffer>;
  readonly sceneWhite: number;
  readonly slopeAtBlack: number;
}

/**
 * Nodes along one edge of the lattice. 17 is for a knob that is being dragged: some milliseconds, not as near as a picture
 * that stays deserves. `as-needed`: 33, and 65 where 33 would miss `tableErrorGoal`.
 */
export type TableSize = 17 | 33 | 65 | 'as-needed';

/** 4096 steps keep the default look's table within 2e-6 of the exact formula; 16 kB stay in the first-level cache. */
const steps = 4096;

/** Colours that a table's error is measured on. */
let probes: readonly Vector3[] | null = null;

/**
 * The tables of a look. Pure, and the same look and profile give the same numbers on every machine: powers may differ in
 * their last digit between engines, so all that is handed on is rounded well above it (to single precision here).
 */
export function compileLook(
  look: Look,
  profile: LookProfile = unknownProfile,
  size: TableSize = 33,
): CompiledLook {
  const { matrix, tone, display, findings } = lookSteps(look, profile);
  return {
    matrix: singleMatrix(matrix),
    curve: tone === null ? null : sampleCurve(tone),
    table: tone === null || display === null ? null : compileTable(tone, display, size),
    local: localParts(look),
    findings,
  };
}

function sampleCurve({ evaluate, sceneWhite, slopeAtBlack }: CurveFunction): CurveTable {
  const samples = Float32Array.from({ length: steps + 1 }, (_, step) =>
    evaluate(sceneWhite * (step / steps) ** 2),
  );
  return { samples, sceneWhite: Math.fround(sceneWhite), slopeAtBlack: Math.fround(slopeAtBlack) };
}

function singleMatrix([a, b, c, d, e, f, g, h, i]: Matrix3): Matrix3 {
  const { fround } = Math;
  return [fround(a), fround(b), fround(c), fround(d), fround(e), fround(f), fround(g), fround(h), fround(i)];
}

function compileTable(tone: CurveFunction, display: Stage, size: TableSize): LookTable {
  const table = measured(tone, display, size === 'as-needed' ? 33 : size);
  if (size !== 'as-needed' || isWithinGoal(table.error)) return table;
  return measured(tone, display, 65);
}

function measured(tone: CurveFunction, display: Stage, size: 17 | 33 | 65): LookTable {
  const lattice = sampleLattice(size, displayShaper, displayShaper, display);
  probes ??= probeColours(2500);
  const shown = probes.map((scene) => fitGamut(mapKeepingHue(scene, tone.evaluate), workingLuminance));
  return { ...lattice, error: compareStages(display, (rgb) => lookUpLattice(lattice, rgb), shown) };
}

export function isWithinGoal({ mean, p999 }: TableError): boolean {
  return mean < tableErrorGoal.mean && p999 < tableErrorGoal.p999;
}
