import { SetsideError } from '../../base/index.ts';
import type * as contract from '../../contract/index.ts';
import { type JobChoice, listedShots, planScale, planScaleGone, type ToldScale } from '../../job/index.ts';
import type { FrameRow } from '../../register/index.ts';
import type { PatchBy, ScaleCalls } from '../../serve/index.ts';
import { pictureOfRow } from '../picture-of-row.ts';
import { chooseForJobs, type JobDeskOptions } from './choose-for-jobs.ts';
import { assertVersion } from './job-desk.ts';
import { jobShape } from './job-shape.ts';

type Told = Pick<FrameRow, 'id' | 'job' | 'camera' | 'picture' | 'capture' | 'readings'>;

export interface ScaleDeskOptions
  extends Pick<JobDeskOptions, 'jobs' | 'looks' | 'acts' | 'tell' | 'inTurn'> {
  readonly book: { row(frame: string): Promise<Told | null> };
}

/** The calls about scales: worked out on the frame they are told on, then chosen, so that the journal holds the outcome. */
export function createScaleDesk(options: ScaleDeskOptions): ScaleCalls {
  const { jobs } = options;
  return {
    setScale: (code, shot, wish, by) =>
      about(options, code, shot, by, 'job.scale', async () => {
        const row = await options.book.row(wish.frame);
        if (row === null || row.job !== code)
          throw new SetsideError('no-frame', `there is no frame ${wish.frame} in job ${code}`);
        return planScale(jobs.jobs(), code, toldScale(row, shot, wish));
      }),
    scaleGone: (code, shot, by) =>
      about(options, code, shot, by, 'job.scale-gone', async () => planScaleGone(jobs.jobs(), code, shot)),
  };
}

/** In its turn; null where the job lists no such shot. */
function about(
  { jobs, looks, acts, tell, inTurn }: ScaleDeskOptions,
  code: string,
  shot: string,
  by: PatchBy,
  what: string,
  plan: () => Promise<readonly JobChoice[]>,
): Promise<contract.Job | null> {
  return inTurn(async () => {
    const job = jobs.job(code);
    const found = job === null ? undefined : listedShots(job).find(({ id }) => id === shot);
    if (job === null || found === undefined) return null;
    assertVersion(job, by);
    const finding = { code: what, args: { job: code, shot: found.name } };
    await chooseForJobs({ jobs, looks, acts, tell }, by.who, finding, await plan());
    const after = jobs.job(code);
    return after === null ? null : jobShape(after);
  });
}

/** Rejects `bad-scale` for a frame without a picture, `target-not-read`. */
function toldScale(row: Told, shot: string, { mm, points }: contract.NewScale): ToldScale {
  const shown = pictureOfRow(row);
  if (shown.state !== 'rendered')
    throw new SetsideError('bad-scale', `frame ${row.id} has no picture to measure in yet`);
  const { width: widthPx, height: heightPx } = shown.original ?? shown;
  const { id: frame, camera, capture, readings } = row;
  const about = { frame, camera, shot, widthPx, heightPx, focalLengthMm: capture?.focalLengthMm ?? null, mm };
  if (points !== undefined) return { ...about, on: { points } };
  const colour = readings?.colour ?? null;
  if (colour?.found !== true || colour.source === 'preview')
    throw new SetsideError('target-not-read', `no target was read in frame ${frame}`);
  return { ...about, on: { targetWidthPx: colour.place.widthPx } };
}
