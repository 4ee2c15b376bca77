import { runDevelopTask } from './develop-jobs.ts';
import { librawDecoder } from './libraw-decoder.ts';
import type { DevelopAnswer, DevelopTask } from './messages.ts';
import { keepingRasters } from './raster-source.ts';
import { keepingSource } from './raw-source.ts';

/** What does jobs in the thread that calls it, with a decoder that stays warm from job to job. */
export function developHere(): (task: DevelopTask) => Promise<DevelopAnswer> {
  const sources = { raws: keepingSource(librawDecoder()), rasters: keepingRasters() };
  return (task) => runDevelopTask(task, sources);
}
