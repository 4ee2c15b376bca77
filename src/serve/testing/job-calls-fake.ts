import { SetsideError } from '../../base/index.ts';
import type { ActEntry, ImportReport, Job, NewJob, NewScale, Strike, ToldAct } from '../../contract/index.ts';
import { sampleJob } from '../../contract/testing/sample-job.ts';
import { sampleStrike } from '../../contract/testing/sample-strike.ts';
import type { LayoutCalls, PictureAnswer } from '../desk.ts';
import type { JobCalls, PatchBy, ScaleCalls, ShotListFile, StrikeCalls, TargetCalls } from '../job-calls.ts';

/** The calls about jobs over a plain list: each notes what it was asked and gives the job as it is. */
export class JobCallsFake implements JobCalls, LayoutCalls, TargetCalls, ScaleCalls, StrikeCalls {
  layoutAnswer: PictureAnswer = {
    kind: 'none',
    finding: { code: 'picture.no-layout', args: { name: 'Mug' } },
  };
  readonly jobList: Job[] = [sampleJob({ code: 'POTS', title: 'Pots', client: 'Nobody' })];
  readonly actList: ActEntry[] = [];
  readonly asked: unknown[] = [];
  readonly #listeners: (() => void)[] = [];
  /** Thrown by the next call of any kind. */
  failure: unknown;

  async jobs(): Promise<readonly Job[]> {
    this.note('jobs');
    return this.jobList;
  }

  async job(code: string): Promise<Job | null> {
    this.note('job', code);
    return this.#find(code);
  }

  async makeJob({ code }: NewJob): Promise<Job> {
    this.note('makeJob', code);
    const made = sampleJob({ code });
    this.jobList.push(made);
    return made;
  }

  async patchJob(code: string, patch: unknown, by: PatchBy): Promise<Job | null> {
    return this.#change('patchJob', code, by, patch);
  }

  async addShot(code: string, wish: unknown, by: PatchBy): Promise<Job | null> {
    return this.#change('addShot', code, by, wish);
  }

  async patchShot(code: string, shot: string, patch: unknown, by: PatchBy): Promise<Job | null> {
    return this.#change('patchShot', code, by, shot, patch);
  }

  async putLayout(code: string, shot: string, bytes: Uint8Array, by: PatchBy): Promise<Job | null> {
    return this.#change('putLayout', code, by, shot, bytes.length);
  }

  async layout(code: string, shot: string): Promise<PictureAnswer | null> {
    this.note('layout', code, shot);
    return this.#find(code) === null ? null : this.layoutAnswer;
  }

  async removeShot(code: string, shot: string, by: PatchBy): Promise<Job | null> {
    return this.#change('removeShot', code, by, shot);
  }

  async bringShotBack(code: string, shot: string, by: PatchBy): Promise<Job | null> {
    return this.#change('bringShotBack', code, by, shot);
  }

  async orderShots(code: string, order: readonly string[], by: PatchBy): Promise<Job | null> {
    return this.#change('orderShots', code, by, order);
  }

  async setBaseline(code: string, shot: string, frame: string, by: PatchBy): Promise<Job | null> {
    return this.#change('setBaseline', code, by, shot, frame);
  }

  async newTarget(code: string, frame: string, by: PatchBy): Promise<Job | null> {
    return this.#change('newTarget', code, by, frame);
  }

  async targetGone(code: string, frame: string, by: PatchBy): Promise<Job | null> {
    return this.#change('targetGone', code, by, frame);
  }

  async setScale(code: string, shot: string, wish: NewScale, by: PatchBy): Promise<Job | null> {
    return this.#change('setScale', code, by, shot, wish);
  }

  async scaleGone(code: string, shot: string, by: PatchBy): Promise<Job | null> {
    return this.#change('scaleGone', code, by, shot);
  }

  strikeAnswer: Strike = sampleStrike({ job: 'POTS' });

  async strike(code: string | null): Promise<Strike | null> {
    this.note('strike', code);
    return code === null || this.#find(code) !== null ? this.strikeAnswer : null;
  }

  async setLastNumber(code: string, camera: string, said: unknown, by: PatchBy): Promise<Strike | null> {
    return this.#strikeAfter('setLastNumber', code, by, camera, said);
  }

  async lastNumberGone(
    code: string,
    camera: string,
    prefix: string | undefined,
    by: PatchBy,
  ): Promise<Strike | null> {
    return this.#strikeAfter('lastNumberGone', code, by, camera, prefix);
  }

  async explainLine(code: string, said: unknown, by: PatchBy): Promise<Strike | null> {
    return this.#strikeAfter('explainLine', code, by, said);
  }

  async lineUnexplained(code: string, line: string, by: PatchBy): Promise<Strike | null> {
    return this.#strikeAfter('lineUnexplained', code, by, line);
  }

  async sign(code: string, signature: unknown, by: PatchBy): Promise<Strike | null> {
    return this.#strikeAfter('sign', code, by, signature);
  }

  async signatureGone(code: string, by: PatchBy): Promise<Strike | null> {
    return this.#strikeAfter('signatureGone', code, by);
  }

  #strikeAfter(call: string, code: string, by: PatchBy, ...values: readonly unknown[]): Strike | null {
    return this.#change(call, code, by, ...values) === null ? null : this.strikeAnswer;
  }

  async removeBaseline(code: string, shot: string, frame: string, by: PatchBy): Promise<Job | null> {
    return this.#change('removeBaseline', code, by, shot, frame);
  }

  async importShots(
    code: string,
    file: ShotListFile,
    preview: boolean,
    by: PatchBy,
  ): Promise<ImportReport | null> {
    const job = this.#change('importShots', code, by, file, preview);
    if (job === null) return null;
    const nothing = {
      columns: [],
      unknownColumns: [],
      lines: [],
      reorders: false,
      bad: [],
      badLines: 0,
      findings: [],
    };
    return { preview, encoding: null, guessed: false, ...nothing, job };
  }

  async exportShots(code: string, format: 'csv' | 'json'): Promise<string | null> {
    this.note('exportShots', code, format);
    return this.#find(code) === null ? null : 'name\r\nMug\r\n';
  }

  async series(code: string): Promise<readonly never[] | null> {
    this.note('series', code);
    return this.#find(code) === null ? null : [];
  }

  async acts(): Promise<readonly ActEntry[]> {
    this.note('acts');
    return this.actList;
  }

  async lastAct(of: object): Promise<ActEntry | null> {
    this.asked.push(['lastAct', of]);
    return this.actList[0] ?? null;
  }

  async toldActs(): Promise<readonly ToldAct[]> {
    return [];
  }

  async undo(act: string | undefined): Promise<ActEntry> {
    this.note('undo', act);
    const [newest] = this.actList;
    if (newest === undefined) throw new SetsideError('nothing-to-undo', 'there is nothing');
    return newest;
  }

  async putBack(): Promise<ActEntry> {
    this.note('putBack');
    throw new SetsideError('nothing-to-put-back', 'there is nothing');
  }

  /** Settles with the next call of any kind. */
  nextAsked(): Promise<void> {
    return new Promise((resolve) => this.#listeners.push(resolve));
  }

  protected note(...call: readonly unknown[]): void {
    this.asked.push(call);
    for (const listener of this.#listeners.splice(0)) listener();
    if (this.failure !== undefined) throw this.failure;
  }

  #change(call: string, code: string, by: PatchBy, ...values: readonly unknown[]): Job | null {
    this.note(call, code, ...values, by);
    return this.#find(code);
  }

  #find(code: string): Job | null {
    return this.jobList.find((job) => job.code === code) ?? null;
  }
}
