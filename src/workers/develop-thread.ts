import { Worker } from 'node:worker_threads';

/** One that was started before anybody had work for it. */
let ahead: Worker | null = null;

/**
 * Starts a thread that the next pool takes over. For a command that is going to render: its modules load on one core while
 * the command's own load on the other. A thread that nobody takes over keeps no process alive.
 */
export function startThreadAhead(): void {
  if (ahead !== null) return;
  const worker = newThread();
  ahead = worker;
  worker.unref();
  // Whoever starts the next one is told why.
  worker.once('error', () => {
    if (ahead === worker) ahead = null;
  });
}

/** The thread started ahead, or a new one. */
export function spawnDevelopThread(): Worker {
  const worker = ahead ?? newThread();
  ahead = null;
  return worker;
}

function newThread(): Worker {
  return new Worker(new URL('./develop-worker.js', import.meta.url), { name: 'develop' });
}
