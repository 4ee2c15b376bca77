/** The thread of a sight worker. The pool posts one job at a time. */
import { parentPort } from 'node:worker_threads';
import sharp from 'sharp';
import type { WorkerReply, WorkerRequest } from '../pool-messages.ts';
import { errorToWire } from '../wire-error.ts';
import type { SightAnswer, SightTask } from './messages.ts';
import { runSightTask } from './sight-jobs.ts';

if (parentPort === null) throw new Error('sight-worker is started as a worker thread');
const port = parentPort;

// Beside the threads that develop, one is enough.
sharp.concurrency(1);
sharp.cache(false);

port.on('message', (request: WorkerRequest<SightTask>) => {
  replyTo(request).then((reply) => port.postMessage(reply));
});

async function replyTo({ id, task }: WorkerRequest<SightTask>): Promise<WorkerReply<SightAnswer>> {
  try {
    return { id, answer: await runSightTask(task), retire: false };
  } catch (thrown) {
    return { id, error: errorToWire(thrown), retire: false };
  }
}
