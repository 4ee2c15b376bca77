import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { SetsideError } from '../../base/index.ts';
import type { CardProgress, CardReport } from '../card/card-report.ts';
import type { PutBackOutcome } from '../copies/put-back.ts';
import { carryOut } from './carry-out.ts';
import type { FileReadAgain, ReadAgainEnd, ReadAgainOptions } from './read-again.ts';
import type { Reading, ReadingPace } from './reading.ts';
import type { CardToRead, ReadingNews, ReadingRequest } from './reading-messages.ts';

/** Reads a card as `checkCard` does, in a process of its own. Rejects `no-card` too. */
export function readCard(
  card: CardToRead,
  onProgress: (progress: CardProgress) => void,
): Reading<CardReport> {
  return start({ kind: 'card', card }, (news) => {
    if (news.kind === 'card-progress') onProgress(news.progress);
    return news.kind === 'card-done' ? news.report : null;
  });
}

/** Reads every original and copy again as `readAgain` does, in a process of its own. */
export function readEverythingAgain(
  options: ReadAgainOptions,
  pace: ReadingPace,
  onFile: (read: FileReadAgain) => void,
): Reading<ReadAgainEnd> {
  return start({ kind: 'again', options, pace }, (news) => {
    if (news.kind === 'file') onFile(news.read);
    return news.kind === 'again-done' ? news.end : null;
  });
}

/** Puts originals back as `putBack` does, in a process of its own. */
export function putOriginalsBack(home: string, names: readonly string[]): Reading<readonly PutBackOutcome[]> {
  return start({ kind: 'put-back', home, names }, (news) =>
    news.kind === 'put-back-done' ? news.outcomes : null,
  );
}

type Begun = Exclude<ReadingRequest, { kind: 'pace' }>;

/** `hear` gives the result once there is one. In line where this runs from sources, which no process can load. */
function start<Result>(request: Begun, hear: (news: ReadingNews) => Result | null): Reading<Result> {
  let stopped = false;
  let settle = { resolve: (_result: Result): void => {}, reject: (_cause: unknown): void => {} };
  const done = new Promise<Result>((resolve, reject) => {
    settle = { resolve, reject };
  });
  // Whoever stops it need not wait for it.
  done.catch(() => {});
  const take = (news: ReadingNews): void => {
    if (stopped) return;
    const result = hear(news);
    if (result !== null) settle.resolve(result);
    if (news.kind === 'failed') settle.reject(new SetsideError(news.code, news.message));
  };
  const built = import.meta.url.endsWith('.js');
  const hands = built ? inProcess(request, take, (cause) => settle.reject(cause)) : inLine(request, take);
  return {
    done,
    pace: hands.pace,
    stop: () => {
      stopped = true;
      hands.stop();
      settle.reject(new SetsideError('reading-stopped', 'the reading was stopped'));
    },
  };
}

interface Hands {
  pace(pace: ReadingPace): void;
  stop(): void;
}

/**
 * A process and not a thread: a call of the system that waits for a bad card cannot be interrupted, and a thread that is in one
 * keeps its whole process from ending.
 */
function inProcess(request: Begun, take: (news: ReadingNews) => void, lost: (cause: unknown) => void): Hands {
  const entry = fileURLToPath(new URL('./reading-child.js', import.meta.url));
  const child: ChildProcess = fork(entry, [String(process.pid)], {
    stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
  });
  // It must not keep the station from ending.
  child.unref();
  child.channel?.unref();
  child.on('message', take);
  child.on('error', lost);
  // Not `exit`: what was said last may still be on its way then.
  child.on('disconnect', () => lost(new SetsideError('reading-lost', 'the reading process ended')));
  const send = (what: ReadingRequest): void => void (child.connected && child.send(what, () => {}));
  send(request);
  return { pace: (pace) => send({ kind: 'pace', pace }), stop: () => void child.kill('SIGKILL') };
}

function inLine(request: Begun, take: (news: ReadingNews) => void): Hands {
  let now: ReadingPace = request.kind === 'again' ? request.pace : { restTimes: 0, paused: false };
  let isStopped = false;
  const pace = (): ReadingPace => {
    if (isStopped) throw new SetsideError('reading-stopped', 'the reading was stopped');
    return now;
  };
  void carryOut(request, pace, take);
  return {
    pace: (wanted) => {
      now = wanted;
    },
    stop: () => {
      isStopped = true;
    },
  };
}
