import type { RawDecoder } from '../develop/index.ts';
import type { DevelopTask, RenderAnswer } from './messages.ts';
import { renderRaster, resizeRendering } from './render-raster.ts';
import { renderLinear, renderRaw } from './render-raw.ts';

/** Does a job, in whatever thread this is called. The decoder stays warm from job to job. */
export function runDevelopTask(task: DevelopTask, decoder: RawDecoder): Promise<RenderAnswer> {
  switch (task.name) {
    case 'render':
      return task.job.kind === 'raw' ? renderRaw(decoder, task.job) : renderRaster(task.job);
    case 'linear':
      return renderLinear(decoder, task.job);
    case 'resize':
      return resizeRendering(task.job);
  }
}
