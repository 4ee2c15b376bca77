import type * as contract from '../../contract/index.ts';
import { type JobChoice, listedShots } from '../../job/index.ts';
import type { PatchBy } from '../../serve/index.ts';
import { chooseForJobs, type JobDeskOptions } from './choose-for-jobs.ts';
import { assertVersion } from './job-desk.ts';
import { jobShape } from './job-shape.ts';

/** Makes choices about a listed shot in its turn; null where the job lists none of this id. */
export async function aboutShot(
  options: Pick<JobDeskOptions, 'jobs' | 'looks' | 'acts' | 'tell'>,
  code: string,
  shot: string,
  by: PatchBy,
  choose: () => Promise<readonly JobChoice[]>,
): Promise<contract.Job | null> {
  const job = options.jobs.job(code);
  const found = job === null ? undefined : listedShots(job).find(({ id }) => id === shot);
  if (job === null || found === undefined) return null;
  assertVersion(job, by);
  const what = { code: 'job.layout', args: { job: code, shot: found.name } };
  await chooseForJobs(options, by.who, what, await choose());
  const after = options.jobs.job(code);
  return after === null ? null : jobShape(after);
}
