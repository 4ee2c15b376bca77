import { randomBytes } from 'node:crypto';
import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { errorCode, SetsideError } from '../../base/index.ts';
import type * as contract from '../../contract/index.ts';
import { type MetadataSheet, readMetadataSheetText, type Specification } from '../../deliver/index.ts';
import type { Finding } from '../../facts/index.ts';
import { SendFailure } from '../../send/index.ts';
import type { DeliveryWish } from '../../serve/index.ts';
import { withDestination } from '../destinations/with-destination.ts';
import type { FrameBook } from '../frame-book.ts';
import type { JobBook } from '../jobs/job-book.ts';
import { cannotWriteCodes, type FrameMakers } from './deliver-frame.ts';
import { deliverOrdered, makingName } from './deliver-ordered.ts';
import { type Asked, type DeliveryEntry, DeliveryLog, type DeliveryOrder } from './delivery-log.ts';
import { DeliveryRun } from './delivery-run.ts';
import { Lane } from './lane.ts';
import { takeAway } from './make-file.ts';
import { newFolder } from './new-folder.ts';
import { framesToDeliver, namesOf, planOf, templateOf } from './plan-delivery.ts';
import { letGo, type Places, type Sending, sendFiles, sendManifests } from './send-delivery.ts';
import { withoutLost } from './without-lost.ts';
import { manifestNames, writeManifest } from './write-manifest.ts';

export interface DeliveriesOptions extends FrameMakers {
  readonly book: Pick<FrameBook, 'row' | 'rows' | 'limits'>;
  readonly jobs: Pick<JobBook, 'job'>;
  readonly places: Places & { assertCanSendTo(destination: Specification['destination']): Promise<void> };
  readonly zoneOffsetMinutes: () => number;
  readonly now: () => number;
  readonly tell: (state: contract.DeliveryState) => void;
  readonly trouble: (thrown: unknown) => void;
}

/**
 * The deliveries of a station. One frame at a time, in the order in which they were begun: what is being shot goes first. What a
 * delivery has made is known from its log, so that after a crash the rest is made and nothing twice.
 */
export class Deliveries {
  readonly #options: DeliveriesOptions;
  readonly #runs = new Map<string, DeliveryRun>();
  readonly #making = new Lane();
  /** Files go out beside what is made: a slow line holds nothing up but what is sent over it. */
  readonly #sending = new Lane();
  #closed = false;

  constructor(options: DeliveriesOptions) {
    this.#options = options;
  }

  /** Reads what is there and goes on with what was under way. */
  async open(): Promise<void> {
    const jobsFolder = join(this.#options.homePath, 'jobs');
    for (const job of await readdir(jobsFolder).catch(() => [])) {
      const folder = join(jobsFolder, job, 'deliveries');
      const names = await readdir(folder).catch(() => []);
      // Of a station that was killed.
      for (const name of names) if (makingName.test(name)) await takeAway(join(folder, name));
      for (const name of names.filter((each) => each.endsWith('.jsonl'))) {
        const log = new DeliveryLog(join(folder, name));
        const read = await log.read().catch((thrown: unknown) => {
          this.#options.trouble(thrown);
          return null;
        });
        if (read === null) continue;
        const entries = await withoutLost(read.entries, join(folder, read.order.folder));
        this.#runs.set(read.order.id, this.#runOf(read.order, log, entries, read.entries));
      }
    }
    this.#next();
  }

  list(job: string | undefined): readonly contract.DeliveryState[] {
    return [...this.#runs.values()]
      .filter(({ order }) => job === undefined || order.job === job)
      .sort((a, b) => b.order.startedMs - a.order.startedMs)
      .map((run) => run.state());
  }

  delivery(id: string): contract.Delivery | null {
    return this.#runs.get(id)?.whole() ?? null;
  }

  /** What `begin` would make. Rejects as `DeliveryCalls.planDelivery`. */
  async plan({ job: code, specification, frames, sheet }: DeliveryWish): Promise<contract.DeliveryPlan> {
    const { jobs, book, zoneOffsetMinutes } = this.#options;
    const job = jobs.job(code);
    if (job === null) throw new SetsideError('no-job', `there is no job ${code}`);
    const rows = await framesToDeliver(book, job, specification, frames);
    const ordered = namesOf(rows, job, specification, zoneOffsetMinutes());
    return planOf(rows, ordered, specification, sheet ?? sheetOf(job.handOver.metadata));
  }

  /** Rejects as `DeliveryCalls.deliver`. */
  async begin(wish: DeliveryWish): Promise<contract.Delivery> {
    const { jobs, book, now, zoneOffsetMinutes } = this.#options;
    const { specification } = wish;
    const job = jobs.job(wish.job);
    if (job === null) throw new SetsideError('no-job', `there is no job ${wish.job}`);
    await this.#options.places.assertCanSendTo(specification.destination);
    const rows = await framesToDeliver(book, job, specification, wish.frames);
    const frames = namesOf(rows, job, specification, zoneOffsetMinutes());
    try {
      const folder = await newFolder(this.#folderOf(job.code), specification.title);
      const id = `d-${randomBytes(6).toString('hex')}`;
      const sheet = wish.sheet ?? sheetOf(job.handOver.metadata);
      const startedMs = now();
      // A parsed specification is JSON.
      const asked = specification as Asked;
      const order: DeliveryOrder = {
        ...{ id, job: job.code, folder, startedMs },
        ...{ specification, asked, sheet, frames, template: templateOf(job, specification) },
      };
      const log = new DeliveryLog(join(this.#folderOf(job.code), `${folder}.jsonl`));
      await log.begin(order);
      const run = this.#runOf(order, log, []);
      this.#runs.set(id, run);
      this.#options.tell(run.state());
      this.#next();
      return run.whole();
    } catch (thrown) {
      if (!cannotWriteCodes.has(errorCode(thrown))) throw thrown;
      throw new SetsideError('cannot-write-there', `${this.#folderOf(job.code)}: ${errorCode(thrown)}`, {
        cause: thrown,
      });
    }
  }

  /** One that is done goes on for what could not be sent. Null where there is none. Rejects `delivery-ended`. */
  async change(id: string, { state, gapsLeft }: contract.DeliveryChange): Promise<contract.Delivery | null> {
    const run = this.#runs.get(id);
    if (run === undefined) return null;
    if (state !== undefined) await this.#become(run, state);
    if (gapsLeft !== undefined) await run.note({ gapsLeft, atMs: this.#options.now() });
    this.#options.tell(run.state());
    this.#next();
    return run.whole();
  }

  async #become(run: DeliveryRun, state: 'running' | 'paused' | 'aborted'): Promise<void> {
    const isAgain = state === 'running' && run.canSendAgain();
    if (run.hasEnded() && !isAgain)
      throw new SetsideError('delivery-ended', `delivery ${run.order.id} has ended`);
    await run.become(state, null);
    if (state === 'aborted' && run.hasDestination()) this.#letGo(run);
  }

  /** Whether one that has not ended goes to the destination of this name. */
  goesTo(name: string): boolean {
    return [...this.#runs.values()].some((run) => !run.hasEnded() && run.goesTo(name));
  }

  /** Ends what is under way; it goes on with the next start. */
  async close(): Promise<void> {
    this.#closed = true;
    for (const run of this.#runs.values()) run.interrupt();
    await this.#making.through();
    await this.#sending.through();
  }

  #next(): void {
    if (this.#closed) return;
    const waiting = [...this.#runs.values()]
      .filter((run) => run.isRunning())
      .sort((a, b) => a.order.startedMs - b.order.startedMs);
    const isToSend = (run: DeliveryRun): boolean => run.hasDestination() && run.nextFrame() === null;
    const toMake = waiting.find((run) => !isToSend(run));
    if (toMake !== undefined && this.#making.isFree) this.#runIn(this.#making, () => this.#work(toMake));
    const toSend = waiting.find(isToSend);
    if (toSend !== undefined && this.#sending.isFree) this.#runIn(this.#sending, () => this.#send(toSend));
  }

  #runIn(lane: Lane, work: () => Promise<void>): void {
    lane.run(
      () => work().catch(this.#options.trouble),
      () => this.#next(),
    );
  }

  /** All that is left to send of one, its manifests last, until it is done, waits, or ends. */
  async #send(run: DeliveryRun): Promise<void> {
    const signal = run.beginFrame();
    const sending = this.#sendingOf(run);
    try {
      await sendFiles(run, sending, signal);
      if (this.#closed || !run.isRunning()) return;
      await writeManifest(run, sending.folder);
      await sendManifests(run, manifestNames, sending, signal);
      if (!(await run.settle('done', null))) return;
    } catch (thrown) {
      if (this.#closed || signal.aborted) return;
      await this.#wait(run, thrown);
      return;
    }
    sending.tell();
  }

  /** As far as it can be; nobody waits for it but what is sent next. */
  #letGo(run: DeliveryRun): void {
    this.#runIn(this.#sending, () =>
      letGo(run, this.#sendingOf(run)).catch((thrown: unknown) => {
        if (!(thrown instanceof SendFailure)) throw thrown;
      }),
    );
  }

  #sendingOf(run: DeliveryRun): Sending {
    const { places, now, tell } = this.#options;
    const folder = join(this.#folderOf(run.order.job), run.order.folder);
    return { places, folder, now, tell: () => tell(run.state()) };
  }

  /** All that is left of one, until it is done, waits, or ends. */
  async #work(run: DeliveryRun): Promise<void> {
    const { tell } = this.#options;
    const folder = join(this.#folderOf(run.order.job), run.order.folder);
    for (let wanted = run.nextFrame(); wanted !== null && !this.#closed; wanted = run.nextFrame()) {
      const signal = run.beginFrame();
      try {
        await run.note(await deliverOrdered(this.#options, run.order, wanted, folder, signal));
      } catch (thrown) {
        if (this.#closed || signal.aborted) return;
        await this.#wait(run, thrown);
        return;
      }
      tell(run.state());
    }
    if (this.#closed || !run.isRunning() || run.hasDestination()) return;
    try {
      await writeManifest(run, folder);
      if (!(await run.settle('done', null))) return;
    } catch (thrown) {
      await this.#wait(run, thrown);
      return;
    }
    tell(run.state());
  }

  /** The log may lie on the same full disk: then the pause is known until the station ends, and is found again by the next start. */
  async #wait(run: DeliveryRun, thrown: unknown): Promise<void> {
    const why = errorCode(thrown);
    const sendFinding = thrown instanceof SendFailure ? named(run, thrown.finding) : null;
    if (sendFinding === null && !cannotWriteCodes.has(why)) this.#options.trouble(thrown);
    const finding = sendFinding ?? { code: 'deliver.cannot-write', args: { why } };
    const isSettled = await run.settle('paused', finding).catch(() => true);
    if (isSettled) this.#options.tell(run.state());
  }

  #runOf(
    order: DeliveryOrder,
    log: DeliveryLog,
    entries: readonly DeliveryEntry[],
    all: readonly DeliveryEntry[] = entries,
  ): DeliveryRun {
    const folder = join(this.#folderOf(order.job), order.folder);
    return new DeliveryRun(folder, order, log, entries, this.#options.now, all);
  }

  #folderOf(job: string): string {
    return join(this.#options.homePath, 'jobs', job, 'deliveries');
  }
}

function named({ order }: DeliveryRun, finding: Finding): Finding {
  const { destination } = order.specification;
  return destination.kind === 'named' ? withDestination(finding, destination.name) : finding;
}

/** What the job says of its pictures; one that cannot be read was written by a later edition. */
function sheetOf(text: string | undefined): MetadataSheet | null {
  return text === undefined || text === '' ? null : readMetadataSheetText(text).sheet;
}
