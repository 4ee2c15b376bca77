import { SetsideError } from '../../base/index.ts';
import type * as contract from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';
import {
  type Job,
  type JobChoice,
  planExplained,
  planLastNumber,
  planSigned,
  planUnexplained,
  planUnsigned,
  type StrikeCheck,
} from '../../job/index.ts';
import type { PatchBy, StrikeCalls } from '../../serve/index.ts';
import { chooseForJobs, type JobDeskOptions } from './choose-for-jobs.ts';
import { assertVersion } from './job-desk.ts';
import { checkJob, readForStrike, type StrikeSources } from './strike-input.ts';
import { stateHash, strikeShape } from './strike-shape.ts';

export interface StrikeDeskOptions
  extends Pick<JobDeskOptions, 'jobs' | 'looks' | 'acts' | 'tell' | 'inTurn'>,
    StrikeSources {
  readonly now: () => number;
}

/** The calls about the strike check. It is made anew for each: nothing of it is kept but what people said. */
export function createStrikeDesk(options: StrikeDeskOptions): StrikeCalls {
  const { jobs, now } = options;
  const about = (
    code: string,
    by: PatchBy,
    what: (job: string) => Finding,
    plan: (check: StrikeCheck) => readonly JobChoice[],
  ): Promise<contract.Strike | null> => saidAbout(options, code, by, what(code), plan);
  const finding = (code: string, args: Finding['args'] = {}) => {
    return (job: string): Finding => ({ code: `job.${code}`, args: { job, ...args } });
  };
  return {
    strike: (code) => checked(options, code ?? jobs.open()?.code ?? ''),
    setLastNumber: (code, camera, { counter, prefix }, by) =>
      about(code, by, finding('last-number', { camera, counter }), (check) =>
        planLastNumber(jobs.jobs(), code, check, {
          camera,
          prefix: prefix ?? onlyPrefix(check, camera),
          counter,
          by: by.who.name,
          atMs: now(),
        }),
      ),
    lastNumberGone: (code, camera, prefix, by) =>
      about(code, by, finding('last-number-gone', { camera }), (check) =>
        planLastNumber(jobs.jobs(), code, check, {
          camera,
          prefix: prefix ?? onlyPrefix(check, camera),
          counter: null,
          by: by.who.name,
          atMs: now(),
        }),
      ),
    explainLine: (code, { line, name, reason }, by) =>
      about(code, by, finding('explained', { name }), (check) =>
        planExplained(jobs.jobs(), code, check, { line, name, reason, atMs: now() }),
      ),
    lineUnexplained: (code, line, by) =>
      about(code, by, finding('explained-gone'), () => planUnexplained(jobs.jobs(), code, line)),
    sign: (code, { name, state }, by) =>
      about(code, by, finding('signed', { name }), (check) =>
        planSigned(jobs.jobs(), code, check, { name, atMs: now(), state: stateHash(check), seen: state }),
      ),
    signatureGone: (code, by) =>
      about(code, by, finding('signature-gone'), () => planUnsigned(jobs.jobs(), code)),
  };
}

/**
 * The frames are read before the turn is taken: reading 20,000 in it would hold up everybody's marks. What changed meanwhile makes a
 * signature, or an explanation, one that was given to what is no more, as any later change would.
 */
async function saidAbout(
  options: StrikeDeskOptions,
  code: string,
  by: PatchBy,
  what: Finding,
  plan: (check: StrikeCheck) => readonly JobChoice[],
): Promise<contract.Strike | null> {
  const seen = options.jobs.job(code);
  if (seen === null) return null;
  assertVersion(seen, by);
  const reading = await readForStrike(options, seen);
  await reading.check(seen);
  const after = await options.inTurn(async () => {
    const job = options.jobs.job(code);
    if (job === null) return null;
    assertVersion(job, by);
    await chooseForJobs(options, by.who, what, plan(await reading.check(job)));
    return options.jobs.job(code);
  });
  return after === null ? null : strikeShape(after, await reading.check(after), options.now());
}

async function checked(options: StrikeDeskOptions, code: string): Promise<contract.Strike | null> {
  const job: Job | null = options.jobs.job(code);
  return job === null ? null : strikeShape(job, await checkJob(options, job), options.now());
}

/** Throws `no-such-numbers` where several cameras use the log-in, or none does: then nobody knows which is meant. */
function onlyPrefix({ cameras }: StrikeCheck, camera: string): string {
  const [only, ...more] = cameras.filter((each) => each.camera === camera && each.newest !== null);
  if (only !== undefined && more.length === 0) return only.prefix;
  throw new SetsideError(
    'no-such-numbers',
    `${camera} numbers the frames of ${more.length + 1} cameras, or none`,
  );
}
