import { Worker } from 'node:worker_threads';

/**
 * Has this process end with the one of that id, which started it, also in the middle of a film of an hour: a thread that only reads
 * hears nothing until it has read, so another one looks. On Windows nobody tells a process that its parent died; there it is heard
 * between two files.
 */
export function endWithStation(station: number): void {
  new Worker(new URL('./station-watch.js', import.meta.url), { workerData: station }).unref();
}
