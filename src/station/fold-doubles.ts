import type { Keep, KeepEvent } from '../keep/index.ts';

/** After an upload that may have left a double; a camera that tries again at once makes several meanwhile. */
const afterUploadMs = 2_000;
/** After the start, for what an earlier one left: the frames go first. */
const afterStartMs = 10_000;
/** After a pass that the disk refused. */
const retryMs = 60_000;

/** What folding needs of `keep`. */
export type FoldingKeep = Pick<Keep, 'on' | 'foldDoubles'>;

/**
 * Has room given back behind the camera, whenever an upload may have left bytes in `incoming/` that another file holds.
 * Gives what ends it; that settles after the pass under way.
 */
export function foldInBackground(keep: FoldingKeep): () => Promise<void> {
  let timer: NodeJS.Timeout | null = null;
  let passing: Promise<void> = Promise.resolve();
  let closed = false;
  const soon = (ms: number): void => {
    if (closed || timer !== null) return;
    timer = setTimeout(() => {
      timer = null;
      passing = passing.then(pass);
    }, ms);
    timer.unref();
  };
  const pass = async (): Promise<void> => {
    if (closed) return;
    const beganMs = performance.now();
    const { failure, more } = await keep.foldDoubles();
    if (failure !== null) soon(retryMs);
    // The disk rests as long as it was read, so that cameras have at least half of it.
    else if (more) soon(Math.max(afterUploadMs, performance.now() - beganMs));
  };
  const stopHearing = keep.on(({ type }) => {
    if (mayLeaveDouble(type)) soon(afterUploadMs);
  });
  soon(afterStartMs);
  return async () => {
    closed = true;
    stopHearing();
    if (timer !== null) clearTimeout(timer);
    await passing;
  };
}

function mayLeaveDouble(type: KeepEvent['type']): boolean {
  return type === 'again' || type === 'made-good' || type === 'broken-off';
}
