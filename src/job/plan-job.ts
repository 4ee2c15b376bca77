import { SetsideError } from '../base/index.ts';
import { type JobColour, type Tolerances, toleranceSets } from '../facts/index.ts';
import {
  assertHandOver,
  assertJobCode,
  assertTolerances,
  assertWords,
  jobToChange,
  knownJob,
  listedShot,
} from './checks.ts';
import type { JobChoice } from './choice.ts';
import {
  type HandOver,
  type JobState,
  type Jobs,
  type JobWords,
  noColour,
  noHandOver,
  noWords,
  type Shot,
} from './job.ts';
import { withoutStaleLook } from './looks.ts';

/** What somebody wants of a new job; what is left out is empty, or the copied job's. */
export interface JobWish extends Partial<JobWords> {
  readonly code: string;
  /** An earlier job whose shots, tolerances, client and place are taken over. */
  readonly copyOf?: string;
  readonly tolerances?: Tolerances;
}

/** What somebody wants changed; what is left out stays. */
export interface JobChange extends Partial<JobWords> {
  readonly state?: JobState;
  readonly tolerances?: Tolerances;
  readonly greyCard?: boolean;
  /** What is left out stays. */
  readonly handOver?: Partial<HandOver>;
  /** What is left out stays. */
  readonly colour?: Partial<JobColour>;
  /** Null: frames go to no shot. */
  readonly currentShot?: string | null;
}

/** What of a shot belongs to the day it was shot on stays with that job. */
function withoutDay({ order: _order, ...shot }: Shot): Shot {
  return { ...shot, baselines: [] };
}

/**
 * The choices that make a job. From the job it copies come shots with their references, since a product line is often
 * shot again as last season; baselines, the order of its frames, targets, dates and notes belong to that day and stay there.
 * Throws `bad-job-code`, `job-exists`, `no-job`, `bad-words`, `bad-tolerance`.
 */
export function planNewJob(jobs: Jobs, wish: JobWish): JobChoice[] {
  const { code, copyOf, tolerances, ...given } = wish;
  assertJobCode(code);
  // Folders of two codes that differ in case only are one folder on some disks.
  if ([...jobs.keys()].some((known) => known.toLowerCase() === code.toLowerCase())) {
    throw new SetsideError('job-exists', `there is a job of code "${code}" already`);
  }
  const earlier = copyOf === undefined ? null : knownJob(jobs, copyOf);
  const { title, client, place } = earlier ?? noWords;
  const words: JobWords = { ...noWords, title, client, place, ...given };
  assertWords(words);
  const limits = tolerances ?? earlier?.tolerances ?? {};
  assertTolerances(limits);
  const shots = (earlier?.shots ?? []).filter(({ hidden }) => !hidden);
  return [
    { type: 'job-described', job: code, ...words },
    ...(Object.keys(limits).length === 0
      ? []
      : [{ type: 'job-tolerances-set', job: code, tolerances: limits } as const]),
    ...(earlier === null || sameHandOver(earlier.handOver, noHandOver)
      ? []
      : [{ type: 'job-hand-over-set', job: code, ...earlier.handOver } as const]),
    ...(earlier === null || sameColour(earlier.colour, noColour)
      ? []
      : [{ type: 'job-colour-set', job: code, ...earlier.colour } as const]),
    ...(earlier?.greyCard ? [{ type: 'job-grey-card-set', job: code, on: true } as const] : []),
    ...shots.map((shot): JobChoice => ({ type: 'shot-stated', job: code, shot: withoutDay(shot) })),
  ];
}

/**
 * The choices that change a job; none where it is as wanted already. A closed job takes a new state, and nothing else
 * before that. Throws `no-job`, `no-shot`, `job-finished`, `bad-words`, `bad-tolerance`, `no-such-tolerance-set`.
 */
export function planJobChange(jobs: Jobs, code: string, change: JobChange): JobChoice[] {
  const { state, tolerances, greyCard, handOver, colour, currentShot, ...given } = change;
  const job = knownJob(jobs, code);
  const reopened = state !== undefined && state !== 'closed';
  const onlyState = Object.keys(change).every((name) => name === 'state');
  if (!reopened && !onlyState) jobToChange(jobs, code);
  const choices: JobChoice[] = [];
  if (state !== undefined && state !== job.state) choices.push({ type: 'job-state-set', job: code, state });
  const { title, client, fromDate, toDate, place, notes } = { ...job, ...given };
  const words: JobWords = { title, client, fromDate, toDate, place, notes };
  assertWords(words);
  if (differs(words, job)) choices.push({ type: 'job-described', job: code, ...words });
  if (tolerances !== undefined) {
    assertTolerances(tolerances);
    if (JSON.stringify(tolerances) !== JSON.stringify(job.tolerances))
      choices.push({ type: 'job-tolerances-set', job: code, tolerances });
  }
  const handed: HandOver = { ...withoutStaleLook(job.handOver, handOver ?? {}), ...handOver };
  if (!sameHandOver(handed, job.handOver)) {
    assertHandOver(handed);
    choices.push({ type: 'job-hand-over-set', job: code, ...handed });
  }
  const judged: JobColour = { ...job.colour, ...colour };
  if (!sameColour(judged, job.colour)) {
    assertToleranceSet(judged);
    choices.push({ type: 'job-colour-set', job: code, ...judged });
  }
  if (greyCard !== undefined && greyCard !== job.greyCard)
    choices.push({ type: 'job-grey-card-set', job: code, on: greyCard });
  if (currentShot !== undefined && currentShot !== job.currentShot) {
    if (currentShot !== null) listedShot(job, currentShot);
    choices.push({ type: 'shot-current-set', job: code, shot: currentShot });
  }
  return choices;
}

function sameHandOver(a: HandOver, b: HandOver): boolean {
  const sameLook = a.look === b.look && a.lookId === b.lookId;
  const sameWords = (a.metadata ?? '') === (b.metadata ?? '');
  return (
    sameLook && sameWords && a.naming === b.naming && a.deliveries.join('\n') === b.deliveries.join('\n')
  );
}

function sameColour(a: JobColour, b: JobColour): boolean {
  return a.edition === b.edition && a.toleranceSet === b.toleranceSet;
}

function assertToleranceSet({ toleranceSet }: JobColour): void {
  if (toleranceSet === null || toleranceSets.some(({ name }) => name === toleranceSet)) return;
  throw new SetsideError('no-such-tolerance-set', `there is no tolerance set "${toleranceSet}"`);
}

function differs(words: JobWords, from: JobWords): boolean {
  return (
    words.title !== from.title ||
    words.client !== from.client ||
    words.fromDate !== from.fromDate ||
    words.toDate !== from.toDate ||
    words.place !== from.place ||
    words.notes !== from.notes
  );
}
