/** What is known of a frame because it was made: later readings are held against it. */
import type { FramePurpose, FrameRecipe, ShotName } from './frame-plan.ts';
import type { FrameSize } from './frame-size.ts';

export interface FrameTruth {
  readonly shot: ShotName;
  readonly purpose: FramePurpose;
  readonly widthPx: number;
  readonly heightPx: number;
  /** EV against the shot's right exposure. */
  readonly exposureEv: number;
  /** Right and down against the shot's reference, pixels as the sensor lies. */
  readonly offsetPx: readonly [number, number];
  /**
   * Standard deviation of the whole Gaussian blur, pixels: the lens's own and what was added. The pixel's own
   * aperture (one pixel square) comes on top.
   */
  readonly sigmaPx: number;
  /** The target's patches where it is in the picture. */
  readonly patches: readonly PatchTruth[];
}

export interface PatchTruth {
  /** 1 dark skin … 24 black. */
  readonly patch: number;
  readonly labD50: readonly [number, number, number];
  /** Corners on the sensor, pixels from the top left of the top left pixel, clockwise from the patch's own top left. */
  readonly cornersPx: readonly (readonly [number, number])[];
}

/** The truth of one frame. Patch corners are given for the reference position and moved with the frame. */
export function frameTruth(
  recipe: FrameRecipe,
  size: FrameSize,
  lensSigmaPx: number,
  patches: readonly PatchTruth[],
): FrameTruth {
  const [dx, dy] = recipe.offsetPx;
  return {
    shot: recipe.shot,
    purpose: recipe.purpose,
    widthPx: size.widthPx,
    heightPx: size.heightPx,
    exposureEv: recipe.exposureEv,
    offsetPx: recipe.offsetPx,
    sigmaPx: Math.hypot(lensSigmaPx, recipe.addedSigmaPx),
    patches: patches.map((patch) => ({
      ...patch,
      cornersPx: patch.cornersPx.map(([x = 0, y = 0]) => [x + dx, y + dy] as const),
    })),
  };
}
