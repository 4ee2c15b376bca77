import { SetsideError } from '../base/index.ts';
import { type JobChoice, plainShot, planNewJob } from '../job/index.ts';
import type { FrameRow } from '../register/index.ts';
import { shotNames } from '../stand-in/index.ts';
import type { Closers } from './closers.ts';
import type { FrameBook } from './frame-book.ts';
import type { JobBook } from './jobs/job-book.ts';

/** The demo's job: an invented pottery, so that nobody's real work is shown. */
export const demoJob = {
  code: 'QM-26',
  title: 'Autumn catalogue',
  client: 'Quillmere Ceramics',
  shots: shotNames.map((name) => ({ id: name, name: shotTitle(name) })),
} as const;

function shotTitle(name: string): string {
  const words = name.replaceAll(/[-_]/g, ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/**
 * Opens the demo's job for as long as the station runs, in a home that holds nothing else.
 * Rejects `home-not-demo` before anything is changed.
 */
export async function openDemoJob(
  homePath: string,
  book: FrameBook,
  jobs: JobBook,
  closers: Closers,
): Promise<void> {
  for await (const row of book.everyRow()) {
    if (isOfDemo(row)) continue;
    throw new SetsideError('home-not-demo', `the home ${homePath} holds frames that are not of the demo`, {
      cure: 'Give the demo a home of its own with --home, or leave --home out.',
    });
  }
  await jobs.choose(jobs.job(demoJob.code) === null ? makeDemoJob(jobs) : [state('open')]);
  closers.add(() => jobs.choose([state('waiting')]));
}

/** A demo that was killed left its job open: whatever comes now is no invented pottery. */
export async function closeDemoJob(jobs: JobBook): Promise<void> {
  if (jobs.open()?.code === demoJob.code) await jobs.choose([state('waiting')]);
}

function makeDemoJob(jobs: JobBook): JobChoice[] {
  const { code, title, client, shots } = demoJob;
  return [
    ...planNewJob(jobs.jobs(), { code, title, client }),
    ...shots.map(
      ({ id, name }): JobChoice => ({ type: 'shot-stated', job: code, shot: plainShot(id, name) }),
    ),
    state('open'),
  ];
}

function state(is: 'open' | 'waiting'): JobChoice {
  return { type: 'job-state-set', job: demoJob.code, state: is };
}

/** By where its originals lie, which no later move to another job changes. */
function isOfDemo({ job, files }: FrameRow): boolean {
  return files.every(({ path }) =>
    path === null ? job === demoJob.code : path.startsWith(`jobs/${demoJob.code}/`),
  );
}
