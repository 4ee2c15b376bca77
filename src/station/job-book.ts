import type { JobSummary } from '../contract/index.ts';
import type { Keep } from '../keep/index.ts';
import type { Register } from '../register/index.ts';

/** Where frames go while no job is open. */
export const trayCode = 'unsorted';

/** Where the next file of any camera belongs: one small thing that `keep` asks before there is a job book. */
export interface CurrentJob {
  /** A job's code, or the tray's. */
  code: string;
}

/** The jobs, and the one that is open. Choices are journalled by `keep` before they count here. */
export class JobBook {
  readonly #keep: Keep;
  readonly #current: CurrentJob;
  #jobs: readonly JobSummary[];

  private constructor(keep: Keep, jobs: readonly JobSummary[], current: CurrentJob) {
    this.#keep = keep;
    this.#jobs = jobs;
    this.#current = current;
  }

  /** `current` is kept in step from here on. */
  static async load(keep: Keep, register: Register, current: CurrentJob): Promise<JobBook> {
    const rows = await register.jobs();
    const jobs = rows.map(({ code, title, client, shots }) => ({ code, title, client, shots: [...shots] }));
    current.code = rows.find(({ open }) => open)?.code ?? trayCode;
    return new JobBook(keep, jobs, current);
  }

  all(): readonly JobSummary[] {
    return this.#jobs;
  }

  open(): JobSummary | null {
    return this.#jobs.find(({ code }) => code === this.#current.code) ?? null;
  }

  /** Whether frames can be moved there: a job's code, or the tray's. */
  exists(code: string): boolean {
    return code === trayCode || this.#jobs.some((job) => job.code === code);
  }

  /** Opens a job, or opens it again with other words. */
  async openJob(job: JobSummary): Promise<void> {
    await this.#keep.append({ type: 'job-opened', ...job });
    this.#jobs = [job, ...this.#jobs.filter(({ code }) => code !== job.code)];
    this.#current.code = job.code;
  }

  /** Closes the open job, if there is one: from now on frames go to the tray. */
  async closeJob(): Promise<void> {
    if (this.open() === null) return;
    await this.#keep.append({ type: 'job-closed' });
    this.#current.code = trayCode;
  }
}
