import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { BagNews, BagRequest, BagTask } from './bag-messages.ts';
import { carryOutBag } from './carry-out-bag.ts';

/** A bag that is being made or read, apart from the station. */
export interface BagAtWork {
  /** Whether it is to rest. */
  pace(paused: boolean): void;
  /** Ends it at once; nothing is told afterwards. */
  stop(): void;
}

/**
 * Begins. In a process of its own, which a bad disk can hold without holding the station; in line where this runs from sources,
 * which no process can load. Nothing is told before this returns.
 */
export function startBag(
  home: string,
  task: BagTask,
  paused: boolean,
  tell: (news: BagNews) => void,
): BagAtWork {
  let isOver = false;
  const take = (news: BagNews): void => {
    if (isOver) return;
    isOver = news.kind !== 'progress';
    tell(news);
  };
  const hands = import.meta.url.endsWith('.js') ? inProcess(take) : inLine(take);
  hands.send({ kind: 'begin', home, task, paused });
  return {
    pace: (wanted) => hands.send({ kind: 'pace', paused: wanted }),
    stop: () => {
      isOver = true;
      hands.stop();
    },
  };
}

interface Hands {
  send(request: BagRequest): void;
  stop(): void;
}

function inProcess(take: (news: BagNews) => void): Hands {
  const entry = fileURLToPath(new URL('./bag-child.js', import.meta.url));
  const child: ChildProcess = fork(entry, [], { stdio: ['ignore', 'ignore', 'inherit', 'ipc'] });
  // It must not keep the station from ending.
  child.unref();
  child.channel?.unref();
  child.on('message', take);
  const lost = (): void =>
    take({ kind: 'failed', why: 'the process that was at it ended', cure: 'Begin again: it goes on.' });
  child.on('error', lost);
  // Not `exit`: what was said last may still be on its way then.
  child.on('disconnect', lost);
  return {
    send: (request) => void (child.connected && child.send(request, () => {})),
    stop: () => void child.kill('SIGKILL'),
  };
}

function inLine(take: (news: BagNews) => void): Hands {
  let paused = false;
  let isStopped = false;
  return {
    send: (request) => {
      paused = request.paused;
      if (request.kind === 'pace') return;
      const { home, task } = request;
      const isPaused = (): boolean => {
        if (isStopped) throw new Error('stopped');
        return paused;
      };
      void Promise.resolve().then(() => carryOutBag(home, task, isPaused, take));
    },
    stop: () => {
      isStopped = true;
    },
  };
}
