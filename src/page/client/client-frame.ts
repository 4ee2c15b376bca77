import type { ClientScreen, Frame } from '../../contract/index.ts';
import { plainClientScreen } from '../../contract/index.ts';
import { isForTheClient } from '../../facts/index.ts';
import { openJobOf, type PageState, trayCode } from '../state/index.ts';

/** What the station says of the screen of the job that frames go to now. */
export function screenNow({ jobs, client }: Pick<PageState, 'jobs' | 'client'>): ClientScreen {
  const code = openJobOf(jobs)?.code ?? trayCode;
  return client.get(code) ?? plainClientScreen(code);
}

/**
 * What the client is shown: the frame held for them while it is there, of the open job and for their eyes; else the newest picture
 * of the shot that frames go to, or of the open job where none is current. Frames of another job are another client's, also where
 * no job is open: then it is what came since, in the tray.
 */
export function clientFrame(state: Pick<PageState, 'frames' | 'jobs' | 'client'>): Frame | null {
  const { frames, jobs } = state;
  // While no job is known it cannot be told whose client stands there.
  if (jobs === null) return null;
  const { job, frame: held } = screenNow(state);
  const isTheirs = (frame: Frame): boolean => frame.job === job && isForTheClient(frame);
  const kept = held === null ? undefined : frames.byId.get(held);
  if (kept !== undefined && isTheirs(kept)) return kept;
  const shot = openJobOf(jobs)?.currentShot ?? null;
  let before: Frame | null = null;
  for (let index = frames.order.length - 1; index >= 0; index -= 1) {
    const frame = frames.byId.get(frames.order[index] ?? '');
    if (frame === undefined || !isTheirs(frame)) continue;
    if (shot === null || frame.shot === shot) return frame;
    before ??= frame;
  }
  // A shot that was just begun shows the one before until its first frame is here.
  return before;
}
