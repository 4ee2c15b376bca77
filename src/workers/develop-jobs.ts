import type { DevelopAnswer, DevelopTask } from './messages.ts';
import type { RasterSource } from './raster-source.ts';
import type { RawSource } from './raw-source.ts';
import type { RenderAnswer, RenderJob } from './render-messages.ts';
import { renderLinear, renderRaw } from './render-raw.ts';

/** Where decoded originals come from. They stay warm from job to job. */
export interface OpenSources {
  readonly raws: RawSource;
  readonly rasters: RasterSource;
}

/**
 * Does a job, in whatever thread this is called. Raws to pictures are what a fresh process is mostly wanted for; all else is
 * loaded with its first job, since a module costs about a millisecond and there are five hundred.
 */
export async function runDevelopTask(
  task: DevelopTask,
  { raws, rasters }: OpenSources,
): Promise<DevelopAnswer> {
  switch (task.name) {
    case 'render':
      return renderAny(task.job, { raws, rasters });
    case 'scene':
      return (await import('./render-scene.ts')).renderScene(raws, rasters, task.job);
    case 'linear':
      return renderLinear(raws, task.job);
    case 'resize':
      return (await import('./render-raster.ts')).resizeRendering(task.job);
    case 'preview':
      return (await import('./render-preview.ts')).renderPreview(rasters, task.job);
    case 'judge':
      return (await import('./judge-pixels.ts')).judgePixels(raws, task.job);
    case 'place':
      return (await import('./place-pixels.ts')).placePixels(raws, task.job);
    case 'finish':
      return (await import('./finish-delivery.ts')).finishDelivery(task.job);
    case 'surround':
      return (await import('./read-surround.ts')).readSurround(task.job);
    case 'prove':
      return (await import('./prove-delivery.ts')).proveDelivery(task.job);
  }
}

async function renderAny(job: RenderJob, { raws, rasters }: OpenSources): Promise<RenderAnswer> {
  const { kind, output } = job;
  if (output !== undefined) {
    const { renderRawOutput, renderRasterOutput } = await import('./render-output.ts');
    return kind === 'raw'
      ? renderRawOutput(raws, { ...job, output })
      : renderRasterOutput({ ...job, output });
  }
  if (kind === 'raw') return renderRaw(raws, job);
  return (await import('./render-raster.ts')).renderRaster(rasters, job);
}
