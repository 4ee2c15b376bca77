import { Worker } from 'node:worker_threads';
import { InlinePool } from '../inline-pool.ts';
import { WorkerPool } from '../worker-pool.ts';
import type {
  CheckPictureAnswer,
  CheckPictureJob,
  LookAnswer,
  LookJob,
  SightAnswer,
  SightTask,
} from './messages.ts';

/** Looks at pictures, in a thread of its own: what is held into them, and whether a stranger's bytes are one. */
export interface SightPool {
  /** Errors: `picture-cannot-decode`, `worker-*`. */
  look(job: LookJob, signal?: AbortSignal): Promise<LookAnswer>;
  /** Errors: `file-empty`, `not-a-picture`, `picture-is-raw`, `picture-too-large`, `picture-cannot-decode`, `worker-*`. */
  checkPicture(job: CheckPictureJob, signal?: AbortSignal): Promise<CheckPictureAnswer>;
  /** Ends the thread. Jobs not done are rejected with `worker-pool-closed`. */
  close(): Promise<void>;
}

export interface SightPoolOptions {
  /** 1 (default) for a thread, 0 for the calling one. */
  readonly size?: 0 | 1;
}

/** Longer than the pause between two frames of a set. */
const idleMs = 20_000;
/** Some 0.1 s for a frame and 3 s for the largest layout on a slow machine; bytes made to take forever are given up. */
const jobMsMax = 30_000;

/** Starts a pool; its thread comes with the first job, from built code. */
export function startSightPool({ size = 1 }: SightPoolOptions = {}): SightPool {
  const pool =
    size === 0
      ? new InlinePool<SightTask, SightAnswer>(async (task) =>
          (await import('./sight-jobs.ts')).runSightTask(task),
        )
      : new WorkerPool<SightTask, SightAnswer>({ size, idleMs, jobMsMax, spawn: spawnSightWorker });
  return {
    look: async (job, signal) => {
      const answer = await pool.run({ name: 'look', job }, signal);
      if (answer.name !== 'look') throw new Error('a look is answered with a look');
      return answer;
    },
    checkPicture: async (job, signal) => {
      const answer = await pool.run({ name: 'check-picture', job }, signal);
      if (answer.name !== 'check-picture') throw new Error('a check is answered with a check');
      return answer;
    },
    close: () => pool.close(),
  };
}

function spawnSightWorker(): Worker {
  return new Worker(new URL('./sight-worker.js', import.meta.url), { name: 'sight' });
}
