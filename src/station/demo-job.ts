import { type EpochMs, epochMsToRfc3339, SetsideError } from '../base/index.ts';
import type { Tolerances } from '../facts/index.ts';
import { type JobChoice, plainShot, planNewJob } from '../job/index.ts';
import type { FrameRow } from '../register/index.ts';
import type { ShotName } from '../stand-in/index.ts';
import type { Closers } from './closers.ts';
import type { FrameBook } from './frame-book.ts';
import type { JobBook } from './jobs/job-book.ts';

const descriptions: Readonly<Record<ShotName, string>> = {
  mug: 'Three quarters from the left, handle to the right, on linen with a spoon.',
  jug: 'Upright, the spout to the right, on the beech board.',
  bowl: 'From slightly above, so that the glaze inside shows.',
  'plate-stack': 'The stack of plates, rims in line, plain.',
  teapot: 'Spout left, lid on; the whole handle in the picture.',
  group: 'All of it together, the jug at the back, for the cover.',
};

/** The station's usual limits for the eye, a little closer for the place: a catalogue is laid out before it is shot. */
const tolerances: Tolerances = {
  shiftPx: { good: 12, bad: 40 },
  rotationDeg: { good: 0.5, bad: 2 },
  meanDeltaE00: { good: 3, bad: 6 },
};

/** The demo's job: an invented pottery, so that nobody's real work is shown. */
export const demoJob = {
  code: 'QM-26',
  title: 'Autumn catalogue',
  client: 'Quillmere Ceramics',
  place: 'Studio 2, the old glaze room',
  notes:
    'Everything stands on the grey sweep; light from the left, one panel and a white card.\nThe target goes in first for each shot. Wipe the ware with cotton gloves.',
  shots: Object.entries(descriptions).map(([name, description]) => ({
    id: name,
    name: shotTitle(name),
    description,
  })),
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
  now: () => EpochMs,
): Promise<void> {
  for await (const row of book.everyRow()) {
    if (isOfDemo(row)) continue;
    throw new SetsideError('home-not-demo', `the home ${homePath} holds frames that are not of the demo`, {
      cure: 'Give the demo a home of its own with --home, or leave --home out.',
    });
  }
  await jobs.choose(jobs.job(demoJob.code) === null ? makeDemoJob(jobs, now()) : [state('open')], null);
  closers.add(() => jobs.choose([state('waiting')], null));
}

/**
 * A demo that was killed left its job open: whatever comes now is no invented pottery. Somebody's own job of that code is
 * left alone.
 */
export async function closeDemoJob(jobs: JobBook): Promise<void> {
  const open = jobs.open();
  if (open === null) return;
  const isDemo = open.code === demoJob.code && open.title === demoJob.title && open.client === demoJob.client;
  if (isDemo) await jobs.choose([state('waiting')], null);
}

function makeDemoJob(jobs: JobBook, nowMs: EpochMs): JobChoice[] {
  const { code, title, client, place, notes, shots } = demoJob;
  const today = epochMsToRfc3339(nowMs).slice(0, 10);
  const days = { fromDate: today, toDate: today };
  return [
    ...planNewJob(jobs.jobs(), { code, title, client, place, notes, ...days, tolerances }),
    ...shots.map(({ id, name, description }): JobChoice => {
      const shot = { ...plainShot(id, name), description, agreement: id === 'group' };
      return { type: 'shot-stated', job: code, shot };
    }),
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
