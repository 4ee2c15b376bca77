import {
  applyMatrix,
  diagonalMatrix,
  type Matrix3,
  multiplyMatrices,
  rgbSpaces,
  type Vector3,
} from '../colour/index.ts';
import type { Finding } from '../facts/index.ts';
import type { CurveFunction } from './curve.ts';
import { displayStages, runStages } from './display-stages.ts';
import { fitGamut } from './fit-gamut.ts';
import { mapKeepingHue } from './keep-hue.ts';
import { type LookProfile, unknownProfile } from './profile.ts';
import type { Look } from './schema.ts';
import { balanceMatrix } from './stages/balance.ts';
import type { Stage } from './stages/stage.ts';
import { toneFunction } from './tone.ts';

const [, , , lumaR, lumaG, lumaB] = rgbSpaces.rec2020.toXyz;
/** Of the working space's channels (ITU-R BT.2020). */
export const workingLuminance: Vector3 = [lumaR, lumaG, lumaB];

/** A look in three exact steps; `compileLook` makes tables of the last two. */
export interface LookSteps {
  /** Balance and exposure. */
  readonly matrix: Matrix3;
  /** Applied as `mapKeepingHue` does; null: light passes. */
  readonly tone: CurveFunction | null;
  /** On display light within 0 … 1 (`fitGamut`); null: light passes. */
  readonly display: Stage | null;
  readonly findings: readonly Finding[];
}

export function lookSteps(look: Look, profile: LookProfile = unknownProfile): LookSteps {
  const { matrix, findings } = balanceMatrix(look.balance, profile);
  const gain = 2 ** look.exposureEv;
  const stages = displayStages(look);
  return {
    matrix: multiplyMatrices(diagonalMatrix([gain, gain, gain]), matrix),
    tone: toneFunction(look, stages.length > 0),
    display: stages.length === 0 ? null : runStages(stages),
    findings,
  };
}

/**
 * The exact formula of a look's parts that work point by point: scene-linear Rec.2020 (balanced as shot, 1 = diffuse
 * white) in, display-linear Rec.2020 out. What comes out may lie outside 0 … 1: whoever shows it fits it into its gamut.
 * Falloff, smoothing, acutance, grain and geometry, which look beyond the point, are not in it.
 */
export function lookFunction(look: Look, profile: LookProfile = unknownProfile): Stage {
  const { matrix, tone, display } = lookSteps(look, profile);
  return (rgb) => {
    const scene = applyMatrix(matrix, rgb);
    const shown = tone === null ? scene : mapKeepingHue(scene, tone.evaluate);
    return display === null ? shown : display(fitGamut(shown, workingLuminance));
  };
}
