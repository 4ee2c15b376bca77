import type { JobSummary } from '../contract/index.ts';
import type { Keep } from '../keep/index.ts';
import type { Register } from '../register/index.ts';

/** Where frames go while no job is open. */
export const trayCode = 'unsorted';

/** The jobs, and the one that is open. Choices are journalled by `keep` before they count here. */
export class JobBook {
  readonly #keep: Keep;
  #jobs: readonly JobSummary[];
  #openCode: string | null;

  private constructor(keep: Keep, jobs: readonly JobSummary[], openCode: string | null) {
    this.#keep = keep;
    this.#jobs = jobs;
    this.#openCode = openCode;
  }

  static async load(keep: Keep, register: Register): Promise<JobBook> {
    const rows = await register.jobs();
    const jobs = rows.map(({ code, title, client, shots }) => ({ code, title, client, shots: [...shots] }));
    return new JobBook(keep, jobs, rows.find(({ open }) => open)?.code ?? null);
  }

  all(): readonly JobSummary[] {
    return this.#jobs;
  }

  open(): JobSummary | null {
    return this.#jobs.find(({ code }) => code === this.#openCode) ?? null;
  }

  /** Whether frames can be moved there: a job's code, or the tray's. */
  exists(code: string): boolean {
    return code === trayCode || this.#jobs.some((job) => job.code === code);
  }

  /** Code of the job that the next file of any camera belongs to. */
  codeForNext(): string {
    return this.#openCode ?? trayCode;
  }

  /** Opens a job, or opens it again with other words. */
  async openJob(job: JobSummary): Promise<void> {
    await this.#keep.append({ type: 'job-opened', ...job });
    this.#jobs = [job, ...this.#jobs.filter(({ code }) => code !== job.code)];
    this.#openCode = job.code;
  }
}
