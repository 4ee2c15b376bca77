/** The thread of a develop worker. The pool posts one job at a time. */
import { parentPort } from 'node:worker_threads';
import sharp from 'sharp';
import { developHere } from './develop-here.ts';
import type { DevelopAnswer, DevelopTask } from './messages.ts';
import type { WorkerReply, WorkerRequest } from './pool-messages.ts';
import { errorToWire } from './wire-error.ts';

/**
 * Full pictures above this leave LibRaw's memory, which never shrinks, large enough to be worth a new thread: 2 bytes a
 * pixel for the file, 2 for its mosaic and 2 for a copy make 300 MB.
 */
const retirePixels = 50_000_000;

if (parentPort === null) throw new Error('develop-worker is started as a worker thread');
const port = parentPort;

// One thread for encoding: the pool already has a worker for every core it may use.
sharp.concurrency(1);
sharp.cache(false);
const perform = developHere();

port.on('message', (request: WorkerRequest<DevelopTask>) => {
  replyTo(request).then((reply) => port.postMessage(reply));
});

async function replyTo({ id, task }: WorkerRequest<DevelopTask>): Promise<WorkerReply<DevelopAnswer>> {
  try {
    const answer = await perform(task);
    return { id, answer, retire: !isFollowed(task) && answer.widthPx * answer.heightPx > retirePixels };
  } catch (thrown) {
    return { id, error: errorToWire(thrown), retire: false };
  }
}

/** One region is followed by its neighbours, and some renderings by readings, for which this thread has the mosaic. */
function isFollowed(task: DevelopTask): boolean {
  if (task.name !== 'render' && task.name !== 'scene') return false;
  const { size } = task.job;
  const judgedNext = task.name === 'render' && task.job.judgedNext === true;
  return judgedNext || (typeof size === 'object' && 'region' in size);
}
