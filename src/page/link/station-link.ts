import type { Frame, FramePage, Job, Station, StationEvent, Visitor } from '../../contract/index.ts';
import type { PageAction } from '../state/index.ts';
import { fetchFramePage, fetchFrames, fetchStation } from './calls.ts';
import { fetchClientScreens } from './client-calls.ts';
import { fetchHandOver } from './hand-over-calls.ts';
import { eventIn, eventNames, isOfHandOver, mayBeTakenBack } from './heard-event.ts';
import { fetchActs, fetchJob, fetchJobs } from './job-calls.ts';
import { fetchVisitor, isShutOut } from './link-calls.ts';
import { NotUnderstood } from './station-call.ts';

/** Waits between attempts to come back, then the last one for ever: quick at first, gentle to a station that starts. */
const retryMs: readonly number[] = [500, 1_000, 2_000, 4_000];
/** After this long without an event the station is asked whether it is there: a dead radio link closes nothing. */
const silenceMs = 10_000;
/** What can be taken back is asked for so long after a change: an act on many frames is many events. */
const actsAfterMs = 80;
/** The listing is read at most so many pages deep (240,000 frames): a bound on a station that never ends. */
const pagesMax = 2_000;
/** A delivery tells of each of its files: then the newest event is all there is to know. */
const handOverTriesMax = 3;

/**
 * Keeps the page's knowledge in step with the station: loads everything, listens, notices when the station is gone,
 * comes back by itself and loads again. Returns what ends it.
 *
 * The events are opened before the listing is read, and those that come meanwhile are held back and told after it,
 * so that nothing falls between the two.
 */
export function openStationLink(
  tell: (action: PageAction) => void,
  as: Visitor['scope'] = 'operator',
): () => void {
  const link = new StationLink(tell, as);
  link.start();
  return () => link.end();
}

class StationLink {
  readonly #tell: (action: PageAction) => void;
  readonly #as: Visitor['scope'];
  readonly #ended = new AbortController();
  #source: EventSource | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #actsTimer: ReturnType<typeof setTimeout> | undefined;
  #attempts = 0;
  #heldBack: StationEvent[] | null = null;
  #version: string | null = null;
  /** Frames heard of since the listing was begun, with the version that was told. */
  readonly #versions = new Map<string, number>();
  /** Events of deliveries, cards, packages and readings that were heard. */
  #handOverHeard = 0;
  /** Which reading of the listing goes on; a later one takes its place. */
  #reading: StationEvent[] | null = null;
  /** Of a pocket: the job whose frames are known. */
  #job: string | null = null;

  constructor(tell: (action: PageAction) => void, as: Visitor['scope']) {
    this.#tell = tell;
    this.#as = as;
  }

  start(): void {
    const source = new EventSource('/api/v1/events');
    this.#source = source;
    source.onopen = () => void this.#load();
    source.onerror = () => void this.#lose();
    for (const name of eventNames) source.addEventListener(name, (message) => this.#hear(message));
  }

  end(): void {
    this.#ended.abort();
    this.#stopListening();
  }

  #stopListening(): void {
    clearTimeout(this.#timer);
    clearTimeout(this.#actsTimer);
    this.#source?.close();
    this.#source = null;
  }

  /** Our own waiting takes over from the browser's, which gives up for good after some answers. */
  async #lose(): Promise<void> {
    if (this.#ended.signal.aborted) return;
    this.#stopListening();
    this.#tell({ type: 'lost', atMs: Date.now() });
    if (await isShutOut(this.#ended.signal)) {
      this.#shutOut();
      return;
    }
    if (this.#ended.signal.aborted) return;
    const wait = retryMs[Math.min(this.#attempts, retryMs.length - 1)] ?? 0;
    this.#attempts += 1;
    this.#timer = setTimeout(() => this.start(), wait);
  }

  async #load(): Promise<void> {
    const held: StationEvent[] = [];
    this.#heldBack = held;
    try {
      const signal = this.#ended.signal;
      const [[station, frames, next, own], jobs, screens] = await Promise.all([
        this.#stationAndFrames(),
        this.#as === 'operator' ? fetchJobs(signal) : null,
        this.#as === 'guest' ? [] : fetchClientScreens(signal),
      ]);
      if (this.#heldBack !== held) return;
      this.#versions.clear();
      this.#heldBack = null;
      this.#reading = held;
      this.#attempts = 0;
      if (station !== null) this.#noticeVersion(station.version);
      this.#tell({ type: 'jobs-loaded', jobs: jobs ?? own });
      this.#tell({ type: 'client-loaded', screens });
      this.#tell({ type: 'loaded', station, frames, ...(next === null ? {} : { more: true }) });
      if (this.#as === 'operator') this.#askForActs();
      if (this.#as === 'operator') void this.#loadHandOver(held);
      for (const event of held) this.#pass(event);
      this.#watchSilence();
      if (next !== null) await this.#loadEarlier(new Set(frames.map(({ id }) => id)), next, held);
    } catch (error) {
      this.#fail(error);
    }
  }

  /** Asked for beside everything else; what is told meanwhile is newer than the answer, so that it is asked for again. */
  async #loadHandOver(load: StationEvent[]): Promise<void> {
    for (let tries = 0; tries < handOverTriesMax; tries += 1) {
      const heard = this.#handOverHeard;
      const news = await fetchHandOver(this.#ended.signal).catch(() => null);
      if (news === null || this.#reading !== load) return;
      this.#tell({ type: 'hand-over-loaded', news });
      if (heard === this.#handOverHeard) return;
    }
  }

  /**
   * The frames before those that are known, page by page, while the page is used already. They are told in growing parts: each
   * makes the page think about all frames. A change that was heard meanwhile may be newer than its page of the listing.
   */
  async #loadEarlier(ids: Set<string>, from: string, load: StationEvent[]): Promise<void> {
    let next: string | null = from;
    let part: Frame[] = [];
    this.#reading = load;
    for (let page = 0; next !== null && page < pagesMax; page += 1) {
      const answer: FramePage = await fetchFramePage(next, this.#ended.signal);
      if (this.#reading !== load) return;
      for (const frame of answer.frames) {
        ids.add(frame.id);
        if (frame.version >= (this.#versions.get(frame.id) ?? 0)) part.push(frame);
      }
      next = answer.next;
      if (next !== null && part.length < ids.size / 2) continue;
      this.#tell({ type: 'earlier-loaded', frames: part });
      part = [];
    }
    for (const id of this.#versions.keys()) ids.add(id);
    this.#tell({ type: 'all-loaded', ids });
  }

  /** A phone has no use for other jobs than the open one, nor for their frames, which may be many thousands. */
  async #stationAndFrames(): Promise<[Station | null, Frame[], string | null, readonly Job[]]> {
    const { signal } = this.#ended;
    if (this.#as === 'operator') {
      const [station, { frames, next }] = await Promise.all([this.#station(), fetchFramePage(null, signal)]);
      return [station, frames, next, []];
    }
    if (this.#as === 'guest') {
      const [station, frames] = await Promise.all([this.#station(), fetchFrames(signal, null)]);
      return [station, frames, null, []];
    }
    const station = await fetchStation(signal);
    this.#job = jobOf(station);
    const [frames, job] = await Promise.all([
      fetchFrames(signal, this.#job),
      station.job === null ? null : fetchJob(station.job.code, signal),
    ]);
    return [station, frames, null, job === null ? [] : [job]];
  }

  #fail(error: unknown): void {
    if (this.#ended.signal.aborted) return;
    if (error instanceof NotUnderstood) this.#tell({ type: 'not-understood' });
    else void this.#lose();
  }

  /** The link has ended: nothing is asked any more. */
  #shutOut(): void {
    this.end();
    this.#tell({ type: 'event', event: { type: 'shut-out' } });
  }

  /** A station that was renewed brings a new page with it. */
  #noticeVersion(version: string): void {
    if (this.#version !== null && this.#version !== version) location.reload();
    this.#version = version;
  }

  #hear(message: MessageEvent<unknown>): void {
    this.#watchSilence();
    const event = eventIn(message.data);
    if (event?.type === 'shut-out') this.#shutOut();
    else if (event === null || event.type === 'resync') void this.#load();
    else if (this.#heldBack !== null) this.#heldBack.push(event);
    else this.#pass(event);
  }

  #pass(event: StationEvent): void {
    if ('frame' in event) this.#versions.set(event.frame.id, event.frame.version);
    if (isOfHandOver(event)) this.#handOverHeard += 1;
    this.#tell({ type: 'event', event });
    if (this.#as === 'pocket' && event.type === 'line' && jobOf(event.station) !== this.#job)
      void this.#load();
    if (this.#as !== 'operator') return;
    if (event.type === 'line') void this.#askForPasswords();
    if (mayBeTakenBack(event)) this.#askForActs();
  }

  /** No event tells what can be taken back. What is missed here comes with the next change. */
  #askForActs(): void {
    clearTimeout(this.#actsTimer);
    this.#actsTimer = setTimeout(() => {
      fetchActs(this.#ended.signal).then(
        ({ acts, told }) => this.#tell({ type: 'acts-seen', acts, told }),
        () => undefined,
      );
    }, actsAfterMs);
  }

  /** A camera may be new, or its password. What is missed here comes with the next event. */
  async #askForPasswords(): Promise<void> {
    try {
      this.#tell({ type: 'station-seen', station: await fetchStation(this.#ended.signal) });
    } catch (error) {
      if (error instanceof NotUnderstood) this.#fail(error);
    }
  }

  /** A guest is told nothing of it; that the station answers, the visitor's own call says. */
  async #station(): Promise<Station | null> {
    if (this.#as !== 'guest') return fetchStation(this.#ended.signal);
    await fetchVisitor(this.#ended.signal);
    return null;
  }

  #watchSilence(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#askWhetherThere(), silenceMs);
  }

  async #askWhetherThere(): Promise<void> {
    try {
      const station = await this.#station();
      if (station !== null) this.#tell({ type: 'station-seen', station });
      this.#watchSilence();
    } catch (error) {
      this.#fail(error);
    }
  }
}

/** The job that frames go to now; the tray where none is open. */
function jobOf({ job }: Station): string {
  return job?.code ?? 'unsorted';
}
