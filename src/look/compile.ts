import { curveFunction } from './curve.ts';
import type { CharacteristicCurve, Look } from './schema.ts';

/** What an executor needs of a look. Without a lattice it is tone only; the lattice of a later version joins here. */
export interface CompiledLook {
  /** Factor on scene-linear RGB before everything else. */
  readonly gain: number;
  /** Null: values pass as they are. */
  readonly curve: CurveTable | null;
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

/** 4096 steps keep the default look's table within 2e-6 of the exact formula; 16 kB stay in the first-level cache. */
const steps = 4096;

/** The table of a look. Pure: the same look gives the same numbers on every machine up to the platform's `Math.pow`. */
export function compileLook(look: Look): CompiledLook {
  return {
    gain: 2 ** look.exposureEv,
    curve: look.curve === null ? null : compileCurve(look.curve),
  };
}

function compileCurve(curve: CharacteristicCurve): CurveTable {
  const { evaluate, sceneWhite, slopeAtBlack } = curveFunction(curve);
  const samples = Float32Array.from({ length: steps + 1 }, (_, step) =>
    evaluate(sceneWhite * (step / steps) ** 2),
  );
  return { samples, sceneWhite, slopeAtBlack };
}
