import { workerError } from './errors.ts';

/** What is done for a picture, in this order. */
export const jobStages = ['waiting', 'reading', 'rendering', 'writing'] as const;
export type JobStage = (typeof jobStages)[number];

/**
 * Memory that whoever asked for a picture shares with the thread that makes it: a thread at work hears no message, and tells
 * none.
 */
export interface JobBoard {
  /** Three 32-bit numbers: not 0 once it is called off, the stage's place, how much of the stage is done in thousandths. */
  readonly shared: SharedArrayBuffer;
}

const [calledOffAt, stageAt, shareAt] = [0, 1, 2] as const;
const thousand = 1000;

export function newJobBoard(): JobBoard {
  return { shared: new SharedArrayBuffer(3 * Int32Array.BYTES_PER_ELEMENT) };
}

/** Asks the thread to end the job, which then rejects `worker-called-off`; what it is writing already it finishes. */
export function callOff({ shared }: JobBoard): void {
  Atomics.store(new Int32Array(shared), calledOffAt, 1);
}

/** How far the job is; `share` of the stage, 0 … 1, which only rendering tells. */
export function whereIs({ shared }: JobBoard): { readonly stage: JobStage; readonly share: number } {
  const told = new Int32Array(shared);
  return {
    stage: jobStages[Atomics.load(told, stageAt)] ?? 'waiting',
    share: Atomics.load(told, shareAt) / thousand,
  };
}

/** The thread's side. */
export interface JobWatch {
  /** A stage begins. Throws `worker-called-off`. */
  readonly begin: (stage: JobStage) => void;
  /** So many rows of the picture are made. Throws `worker-called-off`. */
  readonly rows: (done: number, of: number) => void;
}

/** Tells nobody where there is no board. */
export function jobWatch(board: JobBoard | undefined): JobWatch {
  if (board === undefined) return { begin: () => {}, rows: () => {} };
  const told = new Int32Array(board.shared);
  const orEnd = (): void => {
    if (Atomics.load(told, calledOffAt) !== 0) throw workerError('worker-called-off');
  };
  return {
    begin: (stage) => {
      orEnd();
      Atomics.store(told, shareAt, 0);
      Atomics.store(told, stageAt, jobStages.indexOf(stage));
    },
    rows: (done, of) => {
      orEnd();
      Atomics.store(told, shareAt, Math.round((thousand * done) / Math.max(1, of)));
    },
  };
}
