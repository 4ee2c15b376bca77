import {
  applyJobChoice,
  type Choice,
  type Job,
  type JobChoice,
  type Jobs,
  openJobOf,
  trayCode,
} from '../../job/index.ts';
import type { Keep } from '../../keep/index.ts';
import type { Register } from '../../register/index.ts';

/** Where the next file of any camera belongs: one small thing that `keep` asks before there is a job book. */
export interface CurrentJob {
  /** A job's code, or the tray's. */
  code: string;
}

/** The jobs as they are now. Choices are journalled by `keep` before they count here. */
export class JobBook {
  readonly #keep: Pick<Keep, 'appendTogether'>;
  readonly #current: CurrentJob;
  #jobs: Jobs;

  private constructor(keep: Pick<Keep, 'appendTogether'>, jobs: Jobs, current: CurrentJob) {
    this.#keep = keep;
    this.#jobs = jobs;
    this.#current = current;
    this.#follow();
  }

  /** `current` is kept in step from here on. */
  static async load(keep: Keep, register: Pick<Register, 'jobs'>, current: CurrentJob): Promise<JobBook> {
    const rows = await register.jobs();
    return new JobBook(keep, new Map([...rows].reverse().map((job) => [job.code, job])), current);
  }

  /** As the rules take them. */
  jobs(): Jobs {
    return this.#jobs;
  }

  job(code: string): Job | null {
    return this.#jobs.get(code) ?? null;
  }

  open(): Job | null {
    return openJobOf(this.#jobs);
  }

  /** Journals the choices of one go, then applies those about jobs. Rejects as {@link Keep.append} does; then nothing changed. */
  async choose(choices: readonly Choice[]): Promise<void> {
    await this.#keep.appendTogether(choices);
    this.#jobs = choices.filter(isJobChoice).reduce(applyJobChoice, this.#jobs);
    this.#follow();
  }

  #follow(): void {
    this.#current.code = this.open()?.code ?? trayCode;
  }
}

export function isJobChoice(choice: Choice): choice is JobChoice {
  return !('frame' in choice);
}
