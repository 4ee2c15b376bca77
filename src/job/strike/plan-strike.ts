import { counterMax, type EpochMs, SetsideError } from '../../base/index.ts';
import { jobToChange } from '../checks.ts';
import type { JobChoice } from '../choice.ts';
import type { Jobs } from '../job.ts';
import { explainedMax, lastNumbersMax } from '../limits.ts';
import type { StrikeCheck } from './strike-check.ts';
import type { LastNumber } from './strike-state.ts';

/** The camera's own last number is this one; null: nobody says it any more. Throws `no-job`, `job-finished`, `no-such-numbers`, `bad-number`. */
export function planLastNumber(
  jobs: Jobs,
  code: string,
  check: Pick<StrikeCheck, 'cameras'>,
  said: Omit<LastNumber, 'counter'> & { readonly counter: number | null },
): JobChoice[] {
  const job = jobToChange(jobs, code);
  const { camera, prefix, counter, by, atMs } = said;
  const counts = check.cameras.some(
    (each) => each.camera === camera && each.prefix === prefix && each.newest !== null,
  );
  const known = job.strike.lastNumbers;
  const isThis = (each: LastNumber): boolean => each.camera === camera && each.prefix === prefix;
  if (!counts && !known.some(isThis))
    throw new SetsideError('no-such-numbers', `no frame of job ${code} is numbered by ${camera} "${prefix}"`);
  const others = known.filter((each) => !isThis(each));
  if (counter === null)
    return others.length === known.length
      ? []
      : [{ type: 'job-last-numbers-set', job: code, lastNumbers: others }];
  if (!Number.isInteger(counter) || counter < 1 || counter > counterMax)
    throw new SetsideError('bad-number', `expected a number from 1 to ${counterMax}, got ${counter}`);
  const lastNumbers = [...others, { camera, prefix, counter, by, atMs }].slice(-lastNumbersMax);
  return [{ type: 'job-last-numbers-set', job: code, lastNumbers }];
}

/** Somebody takes a line upon themselves. Throws `no-job`, `job-finished`, `no-such-line` where the check has no such line that one may. */
export function planExplained(
  jobs: Jobs,
  code: string,
  check: StrikeCheck,
  said: { readonly line: string; readonly name: string; readonly reason: string; readonly atMs: EpochMs },
): JobChoice[] {
  const job = jobToChange(jobs, code);
  const line = [...check.open, ...check.accepted].find(({ key }) => key === said.line);
  if (line?.explainable !== true)
    throw new SetsideError('no-such-line', `the check of job ${code} has no such line to explain`);
  const others = job.strike.explained.filter((each) => each.line !== said.line);
  return [{ type: 'job-explained-set', job: code, explained: [...others, said].slice(-explainedMax) }];
}

/** Takes that back; no choice where nobody had said so. Throws `no-job`, `job-finished`. */
export function planUnexplained(jobs: Jobs, code: string, line: string): JobChoice[] {
  const { explained } = jobToChange(jobs, code).strike;
  const others = explained.filter((each) => each.line !== line);
  return others.length === explained.length
    ? []
    : [{ type: 'job-explained-set', job: code, explained: others }];
}

/** Somebody signs the check they saw. Throws `no-job`, `job-finished`, `strike-not-ready`, and `strike-changed` where it says something else by now. */
export function planSigned(
  jobs: Jobs,
  code: string,
  check: Pick<StrikeCheck, 'ready' | 'open'>,
  { name, atMs, state, seen }: SignWish,
): JobChoice[] {
  jobToChange(jobs, code);
  if (!check.ready)
    throw new SetsideError('strike-not-ready', `${check.open.length} lines of job ${code} are open`);
  if (seen !== state) throw new SetsideError('strike-changed', `the check of job ${code} has changed`);
  return [{ type: 'job-signed-set', job: code, signed: { name, atMs, state } }];
}

export interface SignWish {
  readonly name: string;
  readonly atMs: EpochMs;
  /** SHA-256 of the check as it is, and as it was seen. */
  readonly state: string;
  readonly seen: string;
}

/** Takes the signature back; no choice where there is none. Throws `no-job`, `job-finished`. */
export function planUnsigned(jobs: Jobs, code: string): JobChoice[] {
  const { signed } = jobToChange(jobs, code).strike;
  return signed === null ? [] : [{ type: 'job-signed-set', job: code, signed: null }];
}
