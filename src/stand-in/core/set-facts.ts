import type { Orientation } from '../../facts/index.ts';
import type { FrameRecipe } from './frame-plan.ts';
import type { FrameSize } from './frame-size.ts';
import type { PatchTruth } from './frame-truth.ts';

export const lensSigmaPx = 0;

export function orientationOf(_recipe: FrameRecipe): Orientation {
  return 1;
}

export function targetPatches(_recipe: FrameRecipe, _size: FrameSize): PatchTruth[] {
  return [];
}
