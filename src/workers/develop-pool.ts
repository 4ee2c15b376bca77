import { availableParallelism } from 'node:os';
import { spawnDevelopThread } from './develop-thread.ts';
import type { FinishAnswer, FinishJob, ProveAnswer, ProveJob } from './finish-messages.ts';
import { InlinePool } from './inline-pool.ts';
import type {
  JudgeAnswer,
  JudgeJob,
  PlaceAnswer,
  PlaceJob,
  SurroundAnswer,
  SurroundJob,
} from './judge-messages.ts';
import type { DevelopAnswer, DevelopTask } from './messages.ts';
import type {
  LinearJob,
  PreviewJob,
  RenderAnswer,
  RenderJob,
  ResizeJob,
  SceneJob,
} from './render-messages.ts';
import { WorkerPool } from './worker-pool.ts';

/** Does the heavy work on pictures, in threads of its own. Each call rejects promptly once its signal is aborted. */
export interface DevelopPool {
  /**
   * An original to an sRGB picture on disk.
   * Errors: `raw-cannot-decode`, `raw-cut`, `raw-unsupported-mosaic`, `raw-too-large`, `region-outside`,
   * `picture-cannot-decode`, `picture-too-large`, `picture-is-raw`, `worker-*`, the system's own (`ENOENT`, `ENOSPC` …).
   */
  render(job: RenderJob, signal?: AbortSignal): Promise<RenderAnswer>;
  /** An original to the light that a look is applied to, as OpenEXR. Errors as `render`. */
  scene(job: SceneJob, signal?: AbortSignal): Promise<RenderAnswer>;
  /** A raw to linear light as 16-bit TIFF. Errors as `render`. */
  linear(job: LinearJob, signal?: AbortSignal): Promise<RenderAnswer>;
  /** A rendering to a smaller one. Errors as `render`. */
  resize(job: ResizeJob, signal?: AbortSignal): Promise<RenderAnswer>;
  /** A part of a picture that stands in for the original's. Errors as `render`. */
  preview(job: PreviewJob, signal?: AbortSignal): Promise<RenderAnswer>;
  /** What is read in the pixels of an original or of its preview; nothing is written. Errors as `render`. */
  judge(job: JudgeJob, signal?: AbortSignal): Promise<JudgeAnswer>;
  /** What frames are laid on, of an original that they are held against. Errors as `render`. */
  place(job: PlaceJob, signal?: AbortSignal): Promise<PlaceAnswer>;
  /** A rendering to the file that is handed over. Errors: `delivery-too-large`, `delivery-not-as-written`, and as `render`. */
  finish(job: FinishJob, signal?: AbortSignal): Promise<FinishAnswer>;
  /** What stands before which backdrop in a rendering. Errors as `render`. */
  surround(job: SurroundJob, signal?: AbortSignal): Promise<SurroundAnswer>;
  /** That a finished file still holds its picture after metadata was written into it. Errors: `delivery-not-as-written`. */
  prove(job: ProveJob, signal?: AbortSignal): Promise<ProveAnswer>;
  /** Ends all threads. Jobs not done are rejected with `worker-pool-closed`. */
  close(): Promise<void>;
}

export interface DevelopPoolOptions {
  /**
   * Threads at most. 0 does the work in the calling thread, one job at a time. Default: one less than the processor's
   * cores, so that receiving keeps one, and at least 1. A decoder needs up to 0.7 GB for a large raw.
   */
  readonly size?: number;
  /** Idle workers are ended after this, ms. Default 20,000: longer than the pause between two frames of a set. */
  readonly idleMs?: number;
  /** Bound of one job, ms. Default 600,000: five times what a 100-megapixel raw takes with every local part of a look. */
  readonly jobMsMax?: number;
}

/** Starts a pool; threads come with the first job. Workers run from built code: from sources, use size 0. */
export function startDevelopPool(options: DevelopPoolOptions = {}): DevelopPool {
  const { size = Math.max(1, availableParallelism() - 1), idleMs = 20_000, jobMsMax = 600_000 } = options;
  const pool =
    size === 0
      ? inlinePool()
      : new WorkerPool<DevelopTask, DevelopAnswer>({
          size,
          idleMs,
          jobMsMax,
          spawn: spawnDevelopThread,
          subjectOf: ({ job }) => job.path,
        });
  const rendered = async (task: DevelopTask, signal?: AbortSignal): Promise<RenderAnswer> => {
    const answer = await pool.run(task, signal);
    if (!('renderedWidthPx' in answer)) throw new Error('a rendering was answered with something else');
    return answer;
  };
  return {
    render: (job, signal) => rendered({ name: 'render', job }, signal),
    scene: (job, signal) => rendered({ name: 'scene', job }, signal),
    linear: (job, signal) => rendered({ name: 'linear', job }, signal),
    resize: (job, signal) => rendered({ name: 'resize', job }, signal),
    preview: (job, signal) => rendered({ name: 'preview', job }, signal),
    judge: async (job, signal) => {
      const answer = await pool.run({ name: 'judge', job }, signal);
      if (!('readings' in answer)) throw new Error('a judging was answered with something else');
      return answer;
    },
    place: async (job, signal) => {
      const answer = await pool.run({ name: 'place', job }, signal);
      if (!('plane' in answer)) throw new Error('a placing was answered with something else');
      return answer;
    },
    finish: async (job, signal) => {
      const answer = await pool.run({ name: 'finish', job }, signal);
      if (!('quality' in answer)) throw new Error('a finishing was answered with something else');
      return answer;
    },
    surround: async (job, signal) => {
      const answer = await pool.run({ name: 'surround', job }, signal);
      if (!('plain' in answer)) throw new Error('a surround was answered with something else');
      return answer;
    },
    prove: async (job, signal) => {
      const answer = await pool.run({ name: 'prove', job }, signal);
      if (!('sha256' in answer)) throw new Error('a proof was answered with something else');
      return answer;
    },
    close: () => pool.close(),
  };
}

function inlinePool(): InlinePool<DevelopTask, DevelopAnswer> {
  // Loaded when there is a job: who starts threads does without the libraries that work in them.
  let perform: Promise<(task: DevelopTask) => Promise<DevelopAnswer>> | null = null;
  return new InlinePool(async (task) => {
    perform ??= import('./develop-here.ts').then(({ developHere }) => developHere());
    return (await perform)(task);
  });
}
