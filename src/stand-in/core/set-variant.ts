/** What of a frame's faults has to be photographed anew, since no exposure of the right set shows it. */
import { faultValue } from './faults.ts';
import type { FrameRecipe } from './frame-plan.ts';
import type { FrameSize } from './frame-size.ts';
import { subjectMmPerPx } from './set-camera.ts';

export interface SetVariant {
  /** False: the key light stays dark. */
  readonly keyFires: boolean;
  /** How far the ware stands to the right of its place, mm. */
  readonly subjectShiftMm: number;
}

export const rightSet: SetVariant = { keyFires: true, subjectShiftMm: 0 };

/** `shift` is ordered in pixels of the frame, at the distance that the camera looks at. */
export function variantOf(
  { shot, faults }: Pick<FrameRecipe, 'shot' | 'faults'>,
  size: FrameSize,
): SetVariant {
  const shiftPx = faultValue(faults, 'shift') ?? 0;
  return {
    keyFires: faultValue(faults, 'strobe') === undefined,
    subjectShiftMm: shiftPx * subjectMmPerPx(shot, size),
  };
}

/** Part of a rendering's name; empty for the right set. */
export function variantName({ keyFires, subjectShiftMm }: SetVariant): string {
  const shifted = subjectShiftMm === 0 ? '' : `-moved${subjectShiftMm.toFixed(4)}`;
  return `${keyFires ? '' : '-dark'}${shifted}`;
}
