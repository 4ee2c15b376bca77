import type { CardProgress } from '../keep/index.ts';
import { durationPhrase, sizePhrase } from '../words/index.ts';
import type { ProgressStream } from './verify-progress.ts';

/** Before this much was read the speed says nothing, bytes. */
const toTellBytes = 50_000_000;

/** One line that is written over: how many files, how much, and how long at the speed so far; none where nobody looks. */
export function cardProgress(
  stream: ProgressStream = process.stderr,
  now: () => number = Date.now,
): { show: (progress: CardProgress) => void; done: () => void } {
  const beganMs = now();
  const write = (text: string): void => {
    if (stream.isTTY === true) stream.write(`\r${text}\u001b[K`);
  };
  return {
    show: ({ doneFiles, files, doneBytes, bytes }) => {
      const leftMs = ((now() - beganMs) / Math.max(doneBytes, 1)) * (bytes - doneBytes);
      const left = doneBytes < toTellBytes ? '' : `, ${durationPhrase(leftMs)} to go`;
      write(`${doneFiles} of ${files} files, ${sizePhrase(doneBytes)} of ${sizePhrase(bytes)}${left}`);
    },
    done: () => write(''),
  };
}
