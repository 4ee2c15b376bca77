import type { DevelopTask, RenderAnswer } from './messages.ts';
import type { RawSource } from './raw-source.ts';
import { renderRaster, resizeRendering } from './render-raster.ts';
import { renderLinear, renderRaw } from './render-raw.ts';

/** Does a job, in whatever thread this is called. The source stays warm from job to job. */
export function runDevelopTask(task: DevelopTask, raws: RawSource): Promise<RenderAnswer> {
  switch (task.name) {
    case 'render':
      return task.job.kind === 'raw' ? renderRaw(raws, task.job) : renderRaster(task.job);
    case 'linear':
      return renderLinear(raws, task.job);
    case 'resize':
      return resizeRendering(task.job);
  }
}
