import type { StationEvent } from '../../contract/index.ts';
import { eventIdText, parseEventId, runPattern } from './event-id.ts';
import { eventText } from './event-text.ts';

/**
 * What the station tells the pages, remembered for a while so that a broken line can be resumed.
 *
 * The log is the only buffer there is: each client holds a place in it and takes what lies behind that place at its
 * own pace, so a slow client costs no memory and the station never waits for one. A client that falls behind what is
 * remembered is told to load everything again.
 */
export interface EventLog {
  /** Which start of the station the ids belong to. */
  readonly run: string;
  /** Sequence of the newest event, 0 before the first. */
  readonly newest: number;
  /** Takes one event, remembers it, and wakes the listeners; never waits. */
  publish(event: StationEvent): void;
  /** The place a `Last-Event-ID` stands for: null where the gap is not remembered or the id is not of this run. */
  placeOf(lastEventId: string): number | null;
  /**
   * Events behind a place, oldest first, at least one if there is one and not more than `bytesMax` beyond that.
   * null where events behind that place are forgotten.
   */
  after(place: number, bytesMax: number): readonly LoggedEvent[] | null;
  /** Calls `wake` after each event until the returned function is called. `wake` must neither throw nor wait. */
  subscribe(wake: () => void): () => void;
}

export interface LoggedEvent {
  readonly sequence: number;
  /** The whole block as it goes over the line, UTF-8. Shared by all clients: never written to. */
  readonly block: Uint8Array;
  /** Set on news that the next one of the same key makes worthless. */
  readonly coalesceKey: string | null;
}

export interface EventLogOptions {
  /** Different on each start: 1 to 32 lower-case letters and digits. */
  readonly run: string;
  /** How many events are remembered. */
  readonly eventsMax?: number;
  /** How many bytes of events are remembered. The newest event stays whatever its size. */
  readonly bytesMax?: number;
}

/** At ten events a second (two cameras, progress coalesced) about seven minutes: longer than a phone's radio sleeps. */
export const eventsMaxDefault = 4096;

/** A frame is about 2 kB, so the count is reached first; the bytes hold where remarks or logs are long. */
export const bytesMaxDefault = 16 * 1024 * 1024;

/** An empty log. Throws a RangeError where the run or a bound makes no sense: a programmer's mistake. */
export function createEventLog(options: EventLogOptions): EventLog {
  return new RememberingLog(options);
}

class RememberingLog implements EventLog {
  readonly run: string;
  readonly #eventsMax: number;
  readonly #bytesMax: number;
  readonly #encoder = new TextEncoder();
  readonly #listeners = new Set<() => void>();
  /** In rising order of sequence, with gaps where news was coalesced. */
  readonly #events: LoggedEvent[] = [];
  /** Sequence of the remembered event of each key, so that most new ones need not be looked for among thousands. */
  readonly #newestOf = new Map<string, number>();
  #bytes = 0;
  #newest = 0;
  /** Everything up to this sequence may be missing. */
  #forgottenUpTo = 0;

  constructor(options: EventLogOptions) {
    this.run = options.run;
    this.#eventsMax = options.eventsMax ?? eventsMaxDefault;
    this.#bytesMax = options.bytesMax ?? bytesMaxDefault;
    if (!runPattern.test(this.run)) throw new RangeError(`run: expected ${runPattern}, got "${this.run}"`);
    if (this.#eventsMax < 1) throw new RangeError(`eventsMax: expected 1 or more, got ${this.#eventsMax}`);
  }

  get newest(): number {
    return this.#newest;
  }

  publish(event: StationEvent): void {
    this.#newest += 1;
    const id = eventIdText({ run: this.run, sequence: this.#newest });
    const text = eventText({ id, type: event.type, data: JSON.stringify(event) });
    const logged = {
      sequence: this.#newest,
      block: this.#encoder.encode(text),
      coalesceKey: coalesceKeyOf(event),
    };
    this.#dropEarlierNews(logged.coalesceKey);
    this.#events.push(logged);
    this.#bytes += logged.block.length;
    this.#forgetOldest();
    for (const wake of this.#listeners) wake();
  }

  placeOf(lastEventId: string): number | null {
    const id = parseEventId(lastEventId);
    if (id === null || id.run !== this.run || id.sequence > this.#newest) return null;
    return id.sequence < this.#forgottenUpTo ? null : id.sequence;
  }

  after(place: number, bytesMax: number): readonly LoggedEvent[] | null {
    if (place < this.#forgottenUpTo) return null;
    const first = this.#indexAfter(place);
    let end = first;
    for (let bytes = 0; end < this.#events.length; end += 1) {
      bytes += this.#events[end]?.block.length ?? 0;
      if (bytes > bytesMax && end > first) break;
    }
    return this.#events.slice(first, end);
  }

  subscribe(wake: () => void): () => void {
    this.#listeners.add(wake);
    return () => {
      this.#listeners.delete(wake);
    };
  }

  /**
   * Progress of one frame carries the whole frame, so only its newest progress is worth sending. This leaves a gap in
   * the sequence but forgets nothing: who resumes in the gap gets the later one.
   */
  #dropEarlierNews(key: string | null): void {
    if (key === null) return;
    const earlier = this.#newestOf.get(key);
    this.#newestOf.set(key, this.#newest);
    if (earlier === undefined) return;
    const [dropped] = this.#events.splice(this.#indexAfter(earlier - 1), 1);
    this.#bytes -= dropped?.block.length ?? 0;
  }

  #forgetOldest(): void {
    while (
      this.#events.length > this.#eventsMax ||
      (this.#bytes > this.#bytesMax && this.#events.length > 1)
    ) {
      const oldest = this.#events.shift();
      if (oldest === undefined) return;
      this.#bytes -= oldest.block.length;
      this.#forgottenUpTo = oldest.sequence;
      const { coalesceKey: key } = oldest;
      if (key !== null && this.#newestOf.get(key) === oldest.sequence) this.#newestOf.delete(key);
    }
  }

  /** Index of the first event behind a place, by bisection. */
  #indexAfter(place: number): number {
    let low = 0;
    let high = this.#events.length;
    while (low < high) {
      const middle = (low + high) >>> 1;
      if ((this.#events[middle]?.sequence ?? 0) <= place) low = middle + 1;
      else high = middle;
    }
    return low;
  }
}

function coalesceKeyOf(event: StationEvent): string | null {
  if (event.type === 'line') return 'line';
  return event.type === 'arrival' && event.change === 'progress' ? `frame ${event.frame.id}` : null;
}
