import { type EpochMs, SetsideError } from '../base/index.ts';
import type { Acceptance, Finding } from '../facts/index.ts';
import { saidBefore } from './agreements.ts';
import { applyJobChoice } from './apply-choice.ts';
import type { Choice, ChosenOfFrame, FrameChoice, JobChoice } from './choice.ts';
import { type Jobs, openJobOf } from './job.ts';
import { undoActsMax } from './limits.ts';
import type { LookChoice } from './looks.ts';

/** What one person did in one go, and the choices that take it back. */
export interface Act {
  readonly id: string;
  readonly atMs: EpochMs;
  readonly by: string;
  /** The screen it was done on, by a name that the page gave itself; null where none was said. */
  readonly screen: string | null;
  /** Calls that say the same are one act: what is done to thousands of frames comes in parts. */
  readonly whole: string | null;
  readonly what: Finding;
  /** What it touched, see {@link touchedBy}. */
  readonly touched: readonly string[];
  /** What was chosen; made again to put the act back. */
  readonly choices: readonly Choice[];
  /** In the order in which they are to be made. */
  readonly inverse: readonly Choice[];
}

/** The choices that lead back from what `choices` make of the jobs. */
export function inverseOfJobChoices(jobs: Jobs, choices: readonly JobChoice[]): JobChoice[] {
  const inverse: JobChoice[] = [];
  let now = jobs;
  for (const choice of choices) {
    inverse.unshift(...inverseOfJobChoice(now, choice));
    now = applyJobChoice(now, choice);
  }
  return inverse;
}

function inverseOfJobChoice(jobs: Jobs, choice: JobChoice): JobChoice[] {
  const job = jobs.get(choice.job);
  const code = choice.job;
  if (job === undefined) return choice.type === 'job-described' ? [{ type: 'job-removed', job: code }] : [];
  switch (choice.type) {
    case 'job-described': {
      const { title, client, fromDate, toDate, place, notes } = job;
      return [{ type: 'job-described', job: code, title, client, fromDate, toDate, place, notes }];
    }
    case 'job-state-set':
      return inverseOfState(jobs, code);
    case 'job-tolerances-set':
      return [{ type: 'job-tolerances-set', job: code, tolerances: job.tolerances }];
    case 'job-removed':
      return [
        ...inverseOfJobChoice(jobs, { type: 'job-described', job: code, ...job }),
        { type: 'job-tolerances-set', job: code, tolerances: job.tolerances },
        { type: 'job-grey-card-set', job: code, on: job.greyCard },
        { type: 'job-hand-over-set', job: code, ...job.handOver },
        { type: 'job-colour-set', job: code, ...job.colour },
        { type: 'job-targets-set', job: code, targets: job.targets },
        { type: 'job-scales-set', job: code, scales: job.scales },
        { type: 'job-last-numbers-set', job: code, lastNumbers: job.strike.lastNumbers },
        { type: 'job-explained-set', job: code, explained: job.strike.explained },
        { type: 'job-signed-set', job: code, signed: job.strike.signed },
        ...job.shots.map((shot): JobChoice => ({ type: 'shot-stated', job: code, shot })),
        { type: 'shot-current-set', job: code, shot: job.currentShot },
        { type: 'job-state-set', job: code, state: job.state },
      ];
    case 'shot-stated': {
      const shot = job.shots.find(({ id }) => id === choice.shot.id);
      return shot === undefined
        ? [{ type: 'shot-removed', job: code, shot: choice.shot.id }]
        : [{ type: 'shot-stated', job: code, shot }];
    }
    case 'shots-ordered':
      return [orderOf(jobs, code)];
    case 'shot-removed': {
      const shot = job.shots.find(({ id }) => id === choice.shot);
      if (shot === undefined) return [];
      return [
        { type: 'shot-stated', job: code, shot },
        orderOf(jobs, code),
        { type: 'shot-current-set', job: code, shot: job.currentShot },
      ];
    }
    case 'shot-current-set':
      return [{ type: 'shot-current-set', job: code, shot: job.currentShot }];
    case 'job-hand-over-set':
      return [{ type: 'job-hand-over-set', job: code, ...job.handOver }];
    case 'job-colour-set':
      return [{ type: 'job-colour-set', job: code, ...job.colour }];
    case 'job-targets-set':
      return [{ type: 'job-targets-set', job: code, targets: job.targets }];
    case 'agreed':
      return [
        { type: 'agreement-withdrawn', job: code, agreement: choice.agreement.id },
        ...saidBefore(job.agreements, choice.agreement).map(
          (agreement): JobChoice => ({ type: 'agreed', job: code, agreement }),
        ),
      ];
    case 'agreement-withdrawn': {
      const known = job.agreements.find(({ id }) => id === choice.agreement);
      return known === undefined ? [] : [{ type: 'agreed', job: code, agreement: known }];
    }
    case 'job-scales-set':
      return [{ type: 'job-scales-set', job: code, scales: job.scales }];
    case 'job-grey-card-set':
      return [{ type: 'job-grey-card-set', job: code, on: job.greyCard }];
    case 'job-last-numbers-set':
      return [{ type: 'job-last-numbers-set', job: code, lastNumbers: job.strike.lastNumbers }];
    case 'job-explained-set':
      return [{ type: 'job-explained-set', job: code, explained: job.strike.explained }];
    case 'job-signed-set':
      return [{ type: 'job-signed-set', job: code, signed: job.strike.signed }];
  }
}

/** Opening a job laid another aside: that one is opened again. */
function inverseOfState(jobs: Jobs, code: string): JobChoice[] {
  const before = jobs.get(code)?.state ?? 'waiting';
  const other = openJobOf(jobs);
  const back: JobChoice = { type: 'job-state-set', job: code, state: before };
  return other === null || other.code === code
    ? [back]
    : [back, { type: 'job-state-set', job: other.code, state: 'open' }];
}

function orderOf(jobs: Jobs, code: string): JobChoice {
  return {
    type: 'shots-ordered',
    job: code,
    shots: (jobs.get(code)?.shots ?? []).map(({ id }) => id),
  };
}

/** The choices that set a frame back to what was chosen before. */
export function inverseOfFrameChoices(before: ChosenOfFrame, choices: readonly FrameChoice[]): FrameChoice[] {
  return [...choices].reverse().flatMap((choice) => inverseOfFrameChoice(before, choice));
}

function inverseOfFrameChoice(before: ChosenOfFrame, choice: FrameChoice): FrameChoice[] {
  const { id: frame, mark, job, purpose, spot, look, share, acceptances, slate } = before;
  switch (choice.type) {
    case 'mark-set':
      return [{ type: 'mark-set', frame, mark }];
    case 'job-set':
      return [{ type: 'job-set', frame, job }];
    case 'shot-set':
    case 'shot-followed':
      return [placeOf(before)];
    case 'purpose-set':
      return [{ type: 'purpose-set', frame, purpose }];
    case 'spot-set':
      return [{ type: 'spot-set', frame, spot }];
    case 'look-set':
      return [{ type: 'look-set', frame, look }];
    case 'share-set':
      return [{ type: 'share-set', frame, share }];
    case 'acceptance-set': {
      const { question } = choice;
      const known = acceptances.find((each) => each.question === question);
      return [
        {
          type: 'acceptance-set',
          frame,
          question,
          acceptance: known === undefined ? null : without(known),
        },
      ];
    }
    case 'slate-heeded':
      // That it was seen stays known: nobody wants it heeded again a moment later.
      return [{ type: 'slate-heeded', frame, slate: slate ?? { ...choice.slate, inForce: false } }];
  }
}

/** A look that was saved is laid aside: it is kept, whatever is taken back. */
export function inverseOfLookChoices(choices: readonly LookChoice[]): LookChoice[] {
  return [...choices].reverse().map((choice) => ({
    type: 'look-aside-set',
    look: choice.look,
    aside: choice.type === 'look-saved' || !choice.aside,
  }));
}

/** A frame that nobody had moved by hand is again one that nobody moved. */
function placeOf({ id: frame, shot, placedBy }: ChosenOfFrame): FrameChoice {
  return placedBy === 'hand'
    ? { type: 'shot-set', frame, shot }
    : { type: 'shot-followed', frame, shot, by: placedBy };
}

function without({ judgement, name, reason }: Acceptance): Omit<Acceptance, 'question'> {
  return { judgement, name, reason };
}

/** What a choice touches, as a key: two acts that share one cannot be taken back out of their order. */
export function touchedBy(choice: Choice): string {
  switch (choice.type) {
    case 'mark-set':
    case 'purpose-set':
    case 'spot-set':
    case 'look-set':
    case 'share-set':
      return `frame ${choice.frame} ${choice.type}`;
    case 'job-set':
    case 'shot-set':
    case 'shot-followed':
      return `frame ${choice.frame} place`;
    case 'slate-heeded':
      return `frame ${choice.frame} slate`;
    case 'acceptance-set':
      return `frame ${choice.frame} ${choice.question}`;
    case 'job-described':
    case 'job-tolerances-set':
    case 'job-grey-card-set':
    case 'job-hand-over-set':
    case 'job-colour-set':
    case 'job-targets-set':
    case 'job-scales-set':
    case 'job-last-numbers-set':
    case 'job-explained-set':
    case 'job-signed-set':
      return `job ${choice.job} ${choice.type}`;
    case 'job-removed':
      return `job ${choice.job}`;
    case 'agreed':
      return `job ${choice.job} agreement ${choice.agreement.id}`;
    case 'agreement-withdrawn':
      return `job ${choice.job} agreement ${choice.agreement}`;
    case 'job-state-set':
      return 'open job';
    case 'shot-stated':
      return `job ${choice.job} shot ${choice.shot.id}`;
    case 'shot-removed':
      return `job ${choice.job} shot ${choice.shot}`;
    case 'shots-ordered':
      return `job ${choice.job} order`;
    case 'shot-current-set':
      return `job ${choice.job} current`;
    case 'look-saved':
    case 'look-aside-set':
      return `look ${choice.look}`;
  }
}

/** The acts with one more; the oldest beyond {@link undoActsMax} is forgotten. */
export function withAct(acts: readonly Act[], act: Act): readonly Act[] {
  return [...acts, act].slice(-undoActsMax);
}

/**
 * The act to take back, by its id or the newest one, and the acts that are left. Throws `nothing-to-undo`, and
 * `undo-overtaken` where a later act touched the same thing: that one goes first.
 */
export function takeAct(acts: readonly Act[], id?: string): { act: Act; left: readonly Act[] } {
  const at = id === undefined ? acts.length - 1 : acts.findIndex((each) => each.id === id);
  const act = acts[at];
  if (act === undefined) throw new SetsideError('nothing-to-undo', 'there is no such act to take back');
  const later = acts.slice(at + 1);
  if (later.some(({ touched }) => touched.some((key) => overlaps(key, act.touched)))) {
    throw new SetsideError('undo-overtaken', `a later act changed what act ${act.id} changed`);
  }
  return { act, left: [...acts.slice(0, at), ...later] };
}

/** A key is touched by itself and by what is about the whole it belongs to: a job, say, and its shots. */
function overlaps(key: string, others: readonly string[]): boolean {
  return others.some((other) => key === other || key.startsWith(`${other} `) || other.startsWith(`${key} `));
}
