/** Entry of a worker thread: takes {@link RenderJob}s one at a time. */
import { parentPort } from 'node:worker_threads';
import { errorMessage } from '../base/index.ts';
import { type RenderAnswer, type RenderJob, runRenderJob, type SceneShelf } from './render-jobs.ts';

const shelf: SceneShelf = { scene: null };

parentPort?.on('message', (job: RenderJob) => {
  try {
    const answer = runRenderJob(job, shelf);
    parentPort?.postMessage({ answer }, buffersOf(answer));
  } catch (failure) {
    parentPort?.postMessage({ failure: errorMessage(failure) });
  }
});

function buffersOf(answer: RenderAnswer): ArrayBuffer[] {
  if (answer.kind === 'render') return [answer.codes.buffer];
  if (answer.kind === 'expose') {
    const { mosaic, pressed, half, full } = answer;
    return [mosaic.buffer, half.rgb.buffer, full.rgb.buffer, ...(pressed === null ? [] : [pressed.buffer])];
  }
  return answer.kind === 'pack' ? [answer.bytes.buffer] : [];
}
