import { errorCode, SetsideError } from '../base/index.ts';

/**
 * A refusal by the station in the words of somebody at a command line: which job it is about, and the command that
 * helps, where the station's own words speak of its calls. Every other thrown thing comes back as it is.
 */
export function inWordsOfJobs(thrown: unknown, code: string): unknown {
  const refusal = refusals[errorCode(thrown)];
  if (refusal === undefined || !(thrown instanceof SetsideError)) return thrown;
  const { told, message, cure } = refusal(code);
  return new SetsideError(told, message, { cure, cause: thrown });
}

/** What a call about the job of this code rejects with, in those words. */
export async function aboutJob<T>(code: string, call: Promise<T>): Promise<T> {
  try {
    return await call;
  } catch (thrown) {
    throw inWordsOfJobs(thrown, code);
  }
}

interface Told {
  readonly told: string;
  readonly message: string;
  readonly cure: string;
}

const noSuchJob = (code: string): Told => ({
  told: 'no-job',
  message: `There is no job ${code}`,
  cure: `setside job list shows those there are; setside job open ${code} makes one.`,
});

const refusals: Readonly<Record<string, (code: string) => Told>> = {
  'not-found': noSuchJob,
  'no-job': noSuchJob,
  'bad-request': () => ({
    told: 'bad-json',
    message: 'The file is no JSON that can be read',
    cure: 'Look for a comma or a quotation mark that is missing; setside job export shows how a list looks.',
  }),
  'job-finished': (code) => ({
    told: 'job-finished',
    message: `Job ${code} is closed`,
    cure: `setside job lay-aside ${code} takes it up again; setside job open ${code} also has frames go to it.`,
  }),
  'bad-job-code': (code) => ({
    told: 'bad-job-code',
    message:
      code.toLowerCase() === 'unsorted'
        ? `${code} is the tray, where frames go while no job is open`
        : `“${code}” cannot be the code of a job`,
    cure: 'Use 1 to 40 letters from a to z, digits, dots, hyphens and underscores, such as QM-26; it begins and ends with a letter or digit.',
  }),
};
