import { judgePixels } from './judge-pixels.ts';
import type { DevelopAnswer, DevelopTask, RenderAnswer, RenderJob } from './messages.ts';
import { placePixels } from './place-pixels.ts';
import type { RasterSource } from './raster-source.ts';
import type { RawSource } from './raw-source.ts';
import { renderRasterOutput, renderRawOutput } from './render-output.ts';
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
      return renderAny(task.job, { raws, rasters });
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

function renderAny(job: RenderJob, { raws, rasters }: OpenSources): Promise<RenderAnswer> {
  const { kind, output } = job;
  if (output !== undefined) {
    return kind === 'raw'
      ? renderRawOutput(raws, { ...job, output })
      : renderRasterOutput({ ...job, output });
  }
  return kind === 'raw' ? renderRaw(raws, job) : renderRaster(rasters, job);
}
