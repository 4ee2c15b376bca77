/** A recipe with its faults of the picture taken in: what lens and sensor really do. */
import { d65White, settings } from './camera-model.ts';
import { faultValue } from './faults.ts';
import type { FrameRecipe } from './frame-plan.ts';
import { uniform } from './kernels/hash.ts';
import { setTemperatureK, whiteOf } from './light-white.ts';

export interface PictureFacts {
  /** EV against the right exposure. */
  readonly exposureEv: number;
  /** What the dial stands at: the same light fills the sensor's wells less where it is higher. */
  readonly sensitivity: number;
  /** Whether the camera was left to choose the white balance. */
  readonly autoBalance: boolean;
  /** Gaussian blur beyond the lens's own, pixels. */
  readonly addedSigmaPx: number;
  readonly shake: Shake | null;
  readonly temperatureK: number;
  /** CIE 1931 x, y of the light. */
  readonly whiteXy: readonly [number, number];
}

/** A steady movement while the shutter is open: each point becomes a line. */
export interface Shake {
  readonly lengthPx: number;
  /** From the sensor's x towards its y, that is clockwise as the sensor sees, 0 … 180. */
  readonly angleDegrees: number;
}

const d65Xy: readonly [number, number] = (([x, y, z]) => [x / (x + y + z), y / (x + y + z)] as const)(
  d65White,
);

export function pictureFacts(
  recipe: Pick<FrameRecipe, 'exposureEv' | 'addedSigmaPx' | 'faults' | 'noiseSeed'>,
): PictureFacts {
  const { faults } = recipe;
  const lengthPx = faultValue(faults, 'shake');
  const sensitivity = faultValue(faults, 'sensitivity') ?? settings.sensitivity;
  const temperatureK = faultValue(faults, 'tint');
  return {
    exposureEv:
      recipe.exposureEv +
      (faultValue(faults, 'exposure') ?? 0) +
      Math.log2(sensitivity / settings.sensitivity),
    sensitivity,
    autoBalance: faultValue(faults, 'white-balance') !== undefined,
    addedSigmaPx: Math.hypot(recipe.addedSigmaPx, faultValue(faults, 'soft') ?? 0),
    // A hand does not choose its direction.
    shake: lengthPx === undefined ? null : { lengthPx, angleDegrees: 180 * uniform(recipe.noiseSeed, 7) },
    temperatureK: temperatureK ?? setTemperatureK,
    whiteXy: temperatureK === undefined ? d65Xy : whiteOf(temperatureK),
  };
}
