import type { ProgressStream } from './verify-progress.ts';

/** How far a run over files is. */
export interface FilesProgress {
  /**
   * A step of one file begins: what is done, and with which; `how` tells how far it is, where that can be told. Ends where the
   * answer is called.
   */
  begin(step: string, file: string, how?: () => string): () => void;
  /** One more file was dealt with, whatever became of it. */
  oneMore(): void;
  /** Leaves the line empty, for what is printed next. */
  clear(): void;
  /** Files dealt with so far. */
  done(): number;
  /** Leaves the line empty for good; what ends behind it is counted and no longer said. */
  close(): void;
}

/** What takes less is not worth a word, ms. */
const worthSayingMs = 500;
/** How often the line is written anew while nothing ends, ms. */
const everyMs = 500;

interface Step {
  readonly words: string;
  readonly how: () => string;
  readonly sinceMs: number;
}

/**
 * One line of a terminal that is written over: how many of several files are done, and of the step that takes longest now,
 * what it is and for how long. None where the stream is no terminal.
 */
export function filesProgress(
  files: number,
  stream: ProgressStream = process.stderr,
  now: () => number = Date.now,
): FilesProgress {
  const steps = new Set<Step>();
  let done = 0;
  let hasLine = false;
  let isClosed = false;
  const write = (text: string): void => {
    if (stream.isTTY !== true || (text === '' && !hasLine)) return;
    hasLine = text !== '';
    stream.write(`\r${text}\u001b[K`);
  };
  const show = (): void => {
    if (!isClosed) write(lineOf(files, done, steps, now()));
  };
  show();
  const timer = stream.isTTY === true ? setInterval(show, everyMs) : undefined;
  timer?.unref();
  return {
    begin: (step, file, how = () => '') => {
      const begun: Step = { words: `${step} ${file}`, how, sinceMs: now() };
      steps.add(begun);
      return () => {
        steps.delete(begun);
        show();
      };
    },
    oneMore: () => {
      done += 1;
      show();
    },
    clear: () => write(''),
    done: () => done,
    close: () => {
      isClosed = true;
      clearInterval(timer);
      write('');
    },
  };
}

/** Empty where there is nothing to say. */
function lineOf(files: number, done: number, steps: ReadonlySet<Step>, nowMs: number): string {
  const count = files > 1 && done < files ? `${done} of ${files} files` : '';
  // A set keeps the order in which they were begun.
  const [longest] = steps;
  const ms = longest === undefined ? 0 : nowMs - longest.sinceMs;
  const step = longest === undefined || ms < worthSayingMs ? '' : told(longest, `${Math.round(ms / 1000)} s`);
  return [count, step].filter((part) => part !== '').join(': ');
}

function told({ words, how }: Step, time: string): string {
  return [words, how(), time].filter((part) => part !== '').join(', ');
}
