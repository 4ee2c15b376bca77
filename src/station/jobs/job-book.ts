import {
  applyJobChoice,
  type Choice,
  isJobChoice,
  type Job,
  type Jobs,
  openJobOf,
  type ShotWord,
  trayCode,
} from '../../job/index.ts';
import type { Keep } from '../../keep/index.ts';
import type { Register } from '../../register/index.ts';
import type { Doer } from './act-book.ts';
import { chosenBy } from './chosen-by.ts';

/** Where the next file of any camera belongs: one small thing that `keep` asks before there is a job book. */
export interface CurrentJob {
  /** A job's code, or the tray's. */
  code: string;
}

/** A day's changes of the shot; older ones lie before any frame that is still on its way. */
const wordsMax = 500;

/** The jobs as they are now. Choices are journalled by `keep` before they count here. */
export class JobBook {
  readonly #keep: Pick<Keep, 'appendTogether'>;
  readonly #current: CurrentJob;
  #jobs: Jobs;
  #words: readonly (ShotWord & { readonly job: string })[] = [];

  private constructor(keep: Pick<Keep, 'appendTogether'>, jobs: Jobs, current: CurrentJob) {
    this.#keep = keep;
    this.#jobs = jobs;
    this.#current = current;
    this.#follow();
  }

  /** `current` is kept in step from here on. */
  static async load(
    keep: Pick<Keep, 'appendTogether'>,
    register: Pick<Register, 'jobs'>,
    current: CurrentJob,
  ): Promise<JobBook> {
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

  /**
   * Journals the choices of one go with who made them - null where no person did -, then applies those about jobs. Rejects as
   * {@link Keep.append} does; then nothing changed.
   */
  async choose(choices: readonly Choice[], who: Pick<Doer, 'name'> | null): Promise<void> {
    const records = await this.#keep.appendTogether(chosenBy(who, choices));
    this.#noteWords(choices, records[0]?.atMs ?? 0);
    this.#jobs = choices.filter(isJobChoice).reduce(applyJobChoice, this.#jobs);
    this.#follow();
  }

  /** What people said of a job's current shot in this run, oldest first; slates are in the register. */
  wordsOf(job: string): readonly ShotWord[] {
    return this.#words.filter((word) => word.job === job);
  }

  /** Before the choices are applied. A slate that makes its shot current counts from its own place, not from now. */
  #noteWords(choices: readonly Choice[], atMs: number): void {
    if (choices.some(({ type }) => type === 'slate-heeded')) return;
    for (const choice of choices) {
      if (choice.type !== 'shot-current-set') continue;
      const { job, shot } = choice;
      const word = { job, shot, before: this.job(job)?.currentShot ?? null, atMs, heardMs: atMs };
      this.#words = [...this.#words, word].slice(-wordsMax);
    }
  }

  #follow(): void {
    this.#current.code = this.open()?.code ?? trayCode;
  }
}
