import type { Frame } from '../../contract/index.ts';
import { openJobOf, type PageState } from '../state/index.ts';

/**
 * What the client is shown: the frame held for them while it is there, of the open job and for their eyes; else the newest picture of the shot that frames go to, or of
 * the open job where none is current. Tests, targets and what is out are nobody's business but the set's.
 */
export function clientFrame(
  { frames, jobs }: Pick<PageState, 'frames' | 'jobs'>,
  held: string | null,
): Frame | null {
  const job = openJobOf(jobs);
  const kept = held === null ? undefined : frames.byId.get(held);
  // Of another job it is another client's: it is held no longer than its job is open.
  if (kept !== undefined && isToBeSeen(kept) && (job === null || kept.job === job.code)) return kept;
  let before: Frame | null = null;
  for (let index = frames.order.length - 1; index >= 0; index -= 1) {
    const frame = frames.byId.get(frames.order[index] ?? '');
    if (frame === undefined || !isToBeSeen(frame) || (job !== null && frame.job !== job.code)) continue;
    if (job === null || job.currentShot === null || frame.shot === job.currentShot) return frame;
    before ??= frame;
  }
  // A shot that was just begun shows the one before until its first frame is here.
  return before;
}

function isToBeSeen({ purpose, mark, picture }: Frame): boolean {
  const shows = picture.state === 'rendered' || picture.state === 'first-view';
  return purpose === 'picture' && mark !== 'out' && shows;
}
