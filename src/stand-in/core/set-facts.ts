/** What is known of a shot without rendering it. */
import type { Orientation } from '../../facts/index.ts';
import type { FramePurpose, ShotName } from './frame-plan.ts';
import { setShots } from './set-list.ts';

/** The lens's own blur, standard deviation of a Gaussian, pixels at any size of picture. */
export const lensSigmaPx = 0.5;

/** How the camera was held. */
export function orientationOf(recipe: {
  readonly shot: ShotName;
  readonly purpose: FramePurpose;
}): Orientation {
  return recipe.purpose === 'chart' ? 1 : setShots[recipe.shot].camera.orientation;
}
