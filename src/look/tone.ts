import { type CurveFunction, curveFunction } from './curve.ts';
import type { Look } from './schema.ts';
import { addFlare, removeFlare } from './stages/flare.ts';

/** Scene light shown as it is, up to white. */
const straight: CurveFunction = {
  evaluate: (scene) => Math.min(1, scene),
  slopeAtBlack: 1,
  sceneWhite: 1,
};

/**
 * What a look does to one channel between scene and display: flare out, then the characteristic curve. Null where it does
 * nothing; with `cut`, light is then cut at white all the same, as parts that follow ask for.
 */
export function toneFunction({ curve, flare }: Look, cut: boolean): CurveFunction | null {
  if (curve === null && flare === 0) return cut ? straight : null;
  const shown = curve === null ? straight : curveFunction(curve);
  if (flare === 0) return shown;
  return {
    evaluate: (scene) => shown.evaluate(removeFlare(scene, flare)),
    slopeAtBlack: 0,
    sceneWhite: addFlare(shown.sceneWhite, flare),
  };
}
