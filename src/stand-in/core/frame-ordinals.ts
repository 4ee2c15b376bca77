import { filesPerFolder } from './dcf-name.ts';
import { type Fault, faultValue } from './faults.ts';

/**
 * The ordinals of a session's frames, where the camera's counter stands at `next`: one after the other, less what the
 * faults `gap` leave out. A fault `wrap` sets the counter forward until its frame is the first of a new folder.
 */
export function frameOrdinals(
  frames: readonly { readonly faults: readonly Fault[] }[],
  next: number,
): readonly number[] {
  let skipped = 0;
  const steps = frames.map(({ faults }, index) => {
    skipped += faultValue(faults, 'gap') ?? 0;
    return index + skipped;
  });
  const wrap = frames.findIndex(({ faults }) => faultValue(faults, 'wrap') !== undefined);
  const first = wrap < 0 ? next : firstBefore(next, steps[wrap] ?? 0);
  return steps.map((step) => first + step);
}

/** The least ordinal from `next` on that is a folder's first after `steps` more. */
function firstBefore(next: number, steps: number): number {
  return next + filesPerFolder - ((next + steps - 1 + filesPerFolder) % filesPerFolder || filesPerFolder);
}
