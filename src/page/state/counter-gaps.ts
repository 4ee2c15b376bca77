import { type CounterGap, counterGaps as gapsOf } from '../../base/index.ts';
import type { Frame } from '../../contract/index.ts';
import { instantMs, momentOf } from './moment.ts';

export type { CounterGap } from '../../base/index.ts';

/** Gaps of every camera, in the order of the day. `frames` in order of the day. */
export function counterGaps(frames: readonly Frame[]): CounterGap[] {
  return gapsOf(
    frames.map((frame) => {
      const { id, camera, name, counter } = frame;
      const momentMs = momentOf(frame);
      return { id, camera, name, counter, momentMs, cameMs: instantMs(frame.times.firstByte) ?? momentMs };
    }),
  );
}
