import { withAgreement } from './agreements.ts';
import type { JobChoice } from './choice.ts';
import { type Job, type Jobs, noColour, noHandOver, noWords } from './job.ts';
import { noStrike } from './strike/strike-state.ts';

/** The jobs after a choice. A choice about a job that is not there changes nothing, but for one that makes it. */
export function applyJobChoice(jobs: Jobs, choice: JobChoice): Jobs {
  if (choice.type === 'job-removed') return without(jobs, choice.job);
  const known = jobs.get(choice.job);
  if (known === undefined && choice.type !== 'job-described') return jobs;
  const job = known ?? emptyJob(choice.job);
  const opens = choice.type === 'job-state-set' && choice.state === 'open';
  const changed = new Map(jobs);
  // To the end: they are listed by when they were opened.
  if (opens) changed.delete(choice.job);
  changed.set(choice.job, { ...changedJob(job, choice), version: job.version + 1 });
  if (opens) layOthersAside(changed, choice.job);
  return changed;
}

function emptyJob(code: string): Job {
  return {
    ...noWords,
    code,
    state: 'waiting',
    tolerances: {},
    greyCard: false,
    handOver: noHandOver,
    colour: noColour,
    targets: [],
    scales: [],
    strike: noStrike,
    agreements: [],
    shots: [],
    currentShot: null,
    version: 0,
  };
}

function changedJob(job: Job, choice: Exclude<JobChoice, { type: 'job-removed' }>): Job {
  switch (choice.type) {
    case 'job-described': {
      const { title, client, fromDate, toDate, place, notes } = choice;
      return { ...job, title, client, fromDate, toDate, place, notes };
    }
    case 'job-state-set':
      return { ...job, state: choice.state };
    case 'job-tolerances-set':
      return { ...job, tolerances: choice.tolerances };
    case 'shot-stated': {
      const known = job.shots.some(({ id }) => id === choice.shot.id);
      const shots = known
        ? job.shots.map((shot) => (shot.id === choice.shot.id ? choice.shot : shot))
        : [...job.shots, choice.shot];
      return { ...job, shots };
    }
    case 'shots-ordered':
      return { ...job, shots: inOrder(job, choice.shots) };
    case 'shot-removed':
      return {
        ...job,
        shots: job.shots.filter(({ id }) => id !== choice.shot),
        currentShot: job.currentShot === choice.shot ? null : job.currentShot,
      };
    case 'shot-current-set':
      return { ...job, currentShot: choice.shot };
    case 'job-hand-over-set': {
      const { type: _type, job: _job, ...handOver } = choice;
      return { ...job, handOver };
    }
    case 'job-colour-set': {
      const { edition, toleranceSet } = choice;
      return { ...job, colour: { edition, toleranceSet } };
    }
    case 'job-targets-set':
      return { ...job, targets: choice.targets };
    case 'agreed':
      return { ...job, agreements: withAgreement(job.agreements, choice.agreement) };
    case 'agreement-withdrawn':
      return { ...job, agreements: job.agreements.filter(({ id }) => id !== choice.agreement) };
    case 'job-scales-set':
      return { ...job, scales: choice.scales };
    case 'job-grey-card-set':
      return { ...job, greyCard: choice.on };
    case 'job-last-numbers-set':
      return { ...job, strike: { ...job.strike, lastNumbers: choice.lastNumbers } };
    case 'job-explained-set':
      return { ...job, strike: { ...job.strike, explained: choice.explained } };
    case 'job-signed-set':
      return { ...job, strike: { ...job.strike, signed: choice.signed } };
  }
}

/** Shots that the order does not name keep their order behind those it names. */
function inOrder(job: Job, order: readonly string[]): Job['shots'] {
  const place = new Map(order.map((id, index) => [id, index]));
  const placeOf = (id: string): number => place.get(id) ?? order.length;
  return [...job.shots].sort((a, b) => placeOf(a.id) - placeOf(b.id));
}

function layOthersAside(jobs: Map<string, Job>, open: string): void {
  for (const [code, job] of jobs) {
    if (code === open || job.state !== 'open') continue;
    jobs.set(code, { ...job, state: 'waiting', version: job.version + 1 });
  }
}

function without(jobs: Jobs, code: string): Jobs {
  const left = new Map(jobs);
  left.delete(code);
  return left;
}
