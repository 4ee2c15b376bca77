import type { Job } from '../../contract/index.ts';

/** The jobs with this one as it is now, null where it was taken back. An older version of a job changes nothing. */
export function withJob(jobs: readonly Job[], code: string, job: Job | null): readonly Job[] {
  const at = jobs.findIndex((known) => known.code === code);
  const known = jobs[at];
  if (job === null) return jobs.filter((other) => other !== known);
  if (known === undefined) return [job, ...jobs];
  if (known.version > job.version) return jobs;
  // As the station lists them: the newest opened first.
  if (job.state === 'open' && known.state !== 'open') return [job, ...jobs.toSpliced(at, 1)];
  return jobs.with(at, job);
}

export function openJobOf(jobs: readonly Job[] | null): Job | null {
  return jobs?.find(({ state }) => state === 'open') ?? null;
}

/** The job of this code, or null while it is not known. */
export function jobOf(jobs: readonly Job[] | null, code: string | null): Job | null {
  return jobs?.find((job) => job.code === code) ?? null;
}
