import { setTimeout as sleep } from 'node:timers/promises';
import { type BagEar, checkBag } from '../../bagging/index.ts';
import { errorMessage, SetsideError } from '../../base/index.ts';
import type { BagEnd, BagNews, BagTask } from './bag-messages.ts';
import { bagOfJob } from './bag-of-job.ts';

/** Between two words about how far it is. */
const wordEveryMs = 200;
/** How soon it is noticed that a rest is over. */
const lookMs = 100;

/** Makes or reads a bag as the command does, resting while `isPaused`, and tells how it goes. Settles, whatever happens. */
export async function carryOutBag(
  home: string,
  task: BagTask,
  isPaused: () => boolean,
  tell: (news: BagNews) => void,
): Promise<void> {
  let saidMs = Number.NEGATIVE_INFINITY;
  const ear: BagEar = {
    onProgress: (progress) => {
      if (performance.now() - saidMs < wordEveryMs) return;
      saidMs = performance.now();
      tell({ kind: 'progress', progress });
    },
    rest: async () => {
      while (isPaused()) await sleep(lookMs);
    },
  };
  try {
    await ear.rest?.();
    tell({ kind: 'done', end: await endOf(home, task, ear) });
  } catch (thrown) {
    const cure = thrown instanceof SetsideError ? (thrown.cure ?? '') : '';
    tell({ kind: 'failed', why: errorMessage(thrown), cure });
  }
}

async function endOf(home: string, task: BagTask, ear: BagEar): Promise<BagEnd> {
  if (task.kind === 'make') return bagOfJob(home, task.job, task.folder, Date.now(), ear);
  return { ...(await checkBag(task.folder, ear)), originals: null, unfinished: null, leftOut: [] };
}
