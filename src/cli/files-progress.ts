import type { ProgressStream } from './verify-progress.ts';

/** How far a run over several files is. */
export interface FilesProgress {
  /** One more file was dealt with, whatever became of it. */
  oneMore(): void;
  /** Leaves the line empty, for what is printed next. */
  clear(): void;
  /** Files dealt with so far. */
  done(): number;
}

/** One line of a terminal that is written over; none for a single file, and none where the stream is no terminal. */
export function filesProgress(files: number, stream: ProgressStream = process.stderr): FilesProgress {
  let done = 0;
  const write = (text: string): void => {
    if (stream.isTTY === true && files > 1) stream.write(`\r${text}\u001b[K`);
  };
  const show = (): void => write(done < files ? `${done} of ${files} files` : '');
  show();
  return {
    oneMore: () => {
      done += 1;
      show();
    },
    clear: () => write(''),
    done: () => done,
  };
}
