import { Worker } from 'node:worker_threads';

/** Longest that one input may run. A hang cannot be left from inside, so the process ends with it. */
const hangMs = 30_000;

/** Looks from another thread whether inputs go on changing; where one hangs it is saved and the process ended. */
export interface Watchdog {
  watch(input: Uint8Array): void;
  stop(): Promise<void>;
}

export function startWatchdog(savePath: string, inputBytesMax: number): Watchdog {
  const shared = new SharedArrayBuffer(8 + inputBytesMax);
  // How many inputs there were, and the length of the one that runs.
  const state = new Int32Array(shared, 0, 2);
  const memory = new Uint8Array(shared, 8);
  const worker = new Worker(new URL('./watchdog-thread.mjs', import.meta.url), {
    workerData: { shared, savePath, hangMs },
  });
  worker.unref();
  return {
    watch(input) {
      memory.set(input);
      state[1] = input.length;
      Atomics.add(state, 0, 1);
    },
    stop: async () => {
      await worker.terminate();
    },
  };
}
