import type { VerifyProgress } from '../keep/index.ts';

/** A terminal or not: what of a stream is needed here. */
export interface ProgressStream {
  readonly isTTY?: boolean;
  write(text: string): unknown;
}

/** One line that is written over while files are read; none where the stream is no terminal. */
export function verifyProgress(
  what: string,
  stream: ProgressStream = process.stderr,
): { show: (progress: VerifyProgress) => void; done: () => void } {
  const write = (text: string): void => {
    if (stream.isTTY === true) stream.write(`\r${text}\u001b[K`);
  };
  return {
    show: ({ doneFiles, files, doneBytes, bytes }) => {
      const share = bytes === 0 ? 1 : doneBytes / bytes;
      write(`${Math.floor(share * 100)} % (${doneFiles} of ${files} ${what})`);
    },
    /** Leaves the line empty, for what is printed next. */
    done: () => write(''),
  };
}
