import type { Frame } from '../../contract/index.ts';
import { momentOf } from './moment.ts';

/** Frames of one camera that came so quickly after each other that they are one gesture. */
export interface Burst {
  /** Unique on the page, and no frame's. */
  readonly id: string;
  readonly camera: string;
  /** In order of the day. */
  readonly frames: readonly Frame[];
  /** Epoch milliseconds of the first and the last. */
  readonly fromMs: number;
  readonly toMs: number;
}

/** A camera in continuous drive makes 2 to 30 frames a second (common practice, no source). */
const apartMsMax = 1_000;
/** Two or three quick frames are still told apart one by one. */
const framesMin = 4;

/**
 * The bursts of every camera. `frames` in order of the day; those that `standAlone` are in none, nor those of which no shutter
 * is known: files that came quickly after each other were not therefore shot so.
 */
export function burstsOf(frames: readonly Frame[], standAlone: (frame: Frame) => boolean): Burst[] {
  const runs = new Map<string, Frame[]>();
  const bursts: Burst[] = [];
  const end = (run: readonly Frame[] | undefined): void => {
    if (run !== undefined && run.length >= framesMin) bursts.push(burstOf(run));
  };
  for (const frame of frames) {
    if (frame.times.shutter === null || standAlone(frame)) continue;
    const run = runs.get(frame.camera);
    const last = run?.at(-1);
    if (run !== undefined && last !== undefined && momentOf(frame) - momentOf(last) <= apartMsMax) {
      run.push(frame);
      continue;
    }
    end(run);
    runs.set(frame.camera, [frame]);
  }
  for (const run of runs.values()) end(run);
  return bursts;
}

function burstOf(frames: readonly Frame[]): Burst {
  const [first, last] = [frames[0], frames.at(-1)];
  return {
    id: `burst of ${first?.id ?? ''}`,
    camera: first?.camera ?? '',
    frames,
    fromMs: first === undefined ? 0 : momentOf(first),
    toMs: last === undefined ? 0 : momentOf(last),
  };
}
