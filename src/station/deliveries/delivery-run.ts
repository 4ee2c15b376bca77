import { createHash } from 'node:crypto';
import { epochMsToRfc3339 } from '../../base/index.ts';
import type * as contract from '../../contract/index.ts';
import type { Manifest, ManifestFile, ManifestGap, ManifestLine } from '../../deliver/index.ts';
import type { Finding } from '../../facts/index.ts';
import { canonicalJson } from '../../look/index.ts';
import type { DeliveryEntry, DeliveryLog, DeliveryOrder, OrderedFrame } from './delivery-log.ts';
import { nameWhenMade } from './name-when-made.ts';
import { RunSending } from './run-sending.ts';

type State = contract.DeliveryState['state'];

/** One delivery as it is now: its order, what is made of it, whether it goes on. */
export class DeliveryRun {
  readonly order: DeliveryOrder;
  readonly #folder: string;
  readonly #log: DeliveryLog;
  readonly #made = new Map<string, ManifestLine>();
  /** Names that its frames have had, also of files that were lost. */
  readonly #named = new Map<string, string>();
  readonly #gaps = new Map<string, ManifestGap>();
  /** What of it is at its destination. */
  readonly sending = new RunSending();
  readonly #now: () => number;
  readonly #specificationSha256: string;
  #state: State = 'running';
  #gapsLeft = false;
  #endedMs: number | null = null;
  #finding: Finding | null = null;
  #frame = new AbortController();

  constructor(
    folder: string,
    order: DeliveryOrder,
    log: DeliveryLog,
    entries: readonly DeliveryEntry[],
    now: () => number,
    /** Those of files that were lost too. */
    all: readonly DeliveryEntry[] = entries,
  ) {
    this.#folder = folder;
    this.order = order;
    this.#log = log;
    this.#now = now;
    const canonical = canonicalJson(order.asked);
    this.#specificationSha256 = createHash('sha256').update(canonical).digest('hex');
    for (const entry of all) if ('made' in entry) this.#named.set(entry.made.frame, entry.made.file);
    for (const entry of entries) this.#take(entry);
  }

  isRunning(): boolean {
    return this.#state === 'running';
  }

  hasEnded(): boolean {
    return this.#state === 'done' || this.#state === 'aborted';
  }

  /** Whether it was done, and something that was made could not be sent. */
  canSendAgain(): boolean {
    return this.#state === 'done' && this.sending.notSent().length > 0;
  }

  /** The first of which nothing is known; null where none is left, or nothing is to be made now. */
  nextFrame(): OrderedFrame | null {
    if (!this.isRunning()) return null;
    const next = this.order.frames.find(({ frame }) => !this.#made.has(frame) && !this.#gaps.has(frame));
    return next === undefined ? null : { ...next, file: nameWhenMade(this.order, next, this.#named) };
  }

  goesTo(name: string): boolean {
    const { destination } = this.order.specification;
    return destination.kind === 'named' && destination.name === name;
  }

  hasDestination(): boolean {
    return this.order.specification.destination.kind !== 'job';
  }

  /** The first that is made and of which nothing is known at the destination; null where none is left, or nothing is to be sent now. */
  nextToSend(): ManifestLine | null {
    return this.isRunning() ? this.firstNotSent() : null;
  }

  /** The same, whether it runs or not. */
  firstNotSent(): ManifestLine | null {
    return this.#inOrder(this.#made).find(({ file }) => !this.sending.isSettled(file)) ?? null;
  }

  beginFrame(): AbortSignal {
    this.#frame = new AbortController();
    return this.#frame.signal;
  }

  interrupt(): void {
    this.#frame.abort(new Error('the delivery was interrupted'));
  }

  async note(outcome: Exclude<DeliveryEntry, { readonly state: unknown }>): Promise<void> {
    await this.#log.append(outcome);
    this.#take(outcome);
  }

  /** `finding`: why it waits. What is under way is broken off where it does not go on. */
  async become(state: State, finding: Finding | null): Promise<void> {
    const entry: DeliveryEntry = { state, atMs: this.#now(), finding };
    this.#take(entry);
    if (state !== 'running') this.interrupt();
    await this.#log.append(entry);
  }

  /**
   * What the station itself decides: that it is done, or has to wait. A person decides first: one who ended it or lets it wait, in
   * whatever moment, is not overruled. False where that was so.
   */
  async settle(state: 'done' | 'paused', finding: Finding | null): Promise<boolean> {
    if (!this.isRunning()) return false;
    await this.become(state, finding);
    return true;
  }

  manifest(): Manifest {
    return {
      job: this.order.job,
      specification: this.order.specification.title,
      specificationSha256: this.#specificationSha256,
      asked: this.order.asked,
      files: this.#inOrder(this.#made).map((line) => this.#withPlace(line)),
      missing: this.#inOrder(this.#gaps),
    };
  }

  state(): contract.DeliveryState {
    const { id, job, startedMs, specification, frames } = this.order;
    const finding = this.#finding ?? (this.isRunning() ? this.sending.trouble : null);
    return {
      id,
      job,
      title: specification.title,
      specificationSha256: this.#specificationSha256,
      folder: this.#folder,
      state: this.#state,
      startedAt: epochMsToRfc3339(startedMs),
      endedAt: this.#endedMs === null ? null : epochMsToRfc3339(this.#endedMs),
      frames: frames.length,
      filesMade: this.#made.size,
      filesMissing: this.#gaps.size,
      gapsLeft: this.#gapsLeft,
      finding: finding === null ? null : plain(finding),
      destination: destinationOf(specification.destination),
      ...this.sending.figures([...this.#made.values()]),
    };
  }

  whole(): contract.Delivery {
    const { files, missing } = this.manifest();
    return {
      ...this.state(),
      specification: this.order.specification,
      files: files.map(({ file, frame, original, sha256, bytes, widthPx, heightPx, findings, sentTo }) => ({
        ...{ file, frame, original, sha256, bytes, widthPx, heightPx },
        findings: findings.map(plain),
        sentTo: sentTo === '' ? null : sentTo,
      })),
      missing: missing.map((gap) => ({ ...gap, finding: plain(gap.finding) })),
      notSent: this.sending.notSent().map(({ file, finding }) => ({ file, finding: plain(finding) })),
    };
  }

  #inOrder<T>(of: ReadonlyMap<string, T>): readonly T[] {
    return this.order.frames.flatMap(({ frame }) => of.get(frame) ?? []);
  }

  #withPlace(line: ManifestLine): ManifestFile {
    const { sentTo, findings } = this.sending.saidOf(line.file);
    return { ...line, findings: [...line.findings, ...findings], sentTo };
  }

  #take(entry: DeliveryEntry): void {
    if ('made' in entry) {
      this.#made.set(entry.made.frame, entry.made);
      this.#named.set(entry.made.frame, entry.made.file);
    } else if ('gap' in entry) this.#gaps.set(entry.gap.frame, entry.gap);
    else if ('gapsLeft' in entry) this.#gapsLeft = entry.gapsLeft;
    else if (!('state' in entry)) this.sending.take(entry);
    else {
      if (this.#state === 'done' && entry.state === 'running') this.sending.again();
      this.#state = entry.state;
      this.#finding = entry.finding;
      this.#endedMs = this.hasEnded() ? entry.atMs : null;
    }
  }
}

function plain({ code, args }: Finding): { code: string; args: Record<string, string | number> } {
  return { code, args: { ...args } };
}

function destinationOf(destination: DeliveryOrder['specification']['destination']): string | null {
  switch (destination.kind) {
    case 'job':
      return null;
    case 'folder':
      return destination.path;
    case 'named':
      return destination.name;
  }
}
