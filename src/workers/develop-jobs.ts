import { judgePixels } from './judge-pixels.ts';
import type { DevelopAnswer, DevelopTask } from './messages.ts';
import { placePixels } from './place-pixels.ts';
import type { RasterSource } from './raster-source.ts';
import type { RawSource } from './raw-source.ts';
import { renderPreview } from './render-preview.ts';
import { renderRaster, resizeRendering } from './render-raster.ts';
import { renderLinear, renderRaw } from './render-raw.ts';
import { renderScene } from './render-scene.ts';

/** Where decoded originals come from. They stay warm from job to job. */
export interface OpenSources {
  readonly raws: RawSource;
  readonly rasters: RasterSource;
}

/** Does a job, in whatever thread this is called. */
export function runDevelopTask(task: DevelopTask, { raws, rasters }: OpenSources): Promise<DevelopAnswer> {
  switch (task.name) {
    case 'render':
      return task.job.kind === 'raw' ? renderRaw(raws, task.job) : renderRaster(rasters, task.job);
    case 'scene':
      return renderScene(raws, rasters, task.job);
    case 'linear':
      return renderLinear(raws, task.job);
    case 'resize':
      return resizeRendering(task.job);
    case 'preview':
      return renderPreview(rasters, task.job);
    case 'judge':
      return judgePixels(raws, task.job);
    case 'place':
      return placePixels(raws, task.job);
  }
}
