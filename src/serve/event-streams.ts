import { stationEvent } from '../contract/index.ts';
import { eventFor } from './core/event-for.ts';
import type { EventLog } from './core/event-log.ts';
import { dataIn, eventText } from './core/event-text.ts';
import { defaultWebLimits, type WebLimits } from './core/limits.ts';
import type { Who } from './core/who.ts';
import { Refusal } from './errors.ts';
import { EventStream, type Tell } from './event-stream.ts';
import type { WebLog } from './web-log.ts';

/** Shorter than any idle time-out in the way: the connection's own of 120 s, a router's of one minute and more. */
export const heartBeatMs = 15_000;

/** Pages open at once: screens on the set, phones, a few tabs forgotten. Each costs a socket and a place in the log. */
export const streamsMaxDefault = 64;

export interface EventStreamsOptions {
  readonly streamsMax?: number;
  readonly limits?: Partial<WebLimits>;
  /** Calls `beat` every `everyMs` until the returned function is called; tests pass one they turn by hand. */
  readonly startBeat?: (everyMs: number, beat: () => void) => () => void;
}

/** All open event streams: bounds their number, beats for them, ends them when the station stops. */
export class EventStreams {
  readonly #log: EventLog;
  readonly #webLog: WebLog;
  readonly #streamsMax: number;
  readonly #limits: WebLimits;
  /** With who listens: by no link on the station's own computer. */
  readonly #open = new Map<EventStream, Who>();
  readonly #stopBeat: () => void;

  constructor(log: EventLog, webLog: WebLog, options: EventStreamsOptions = {}) {
    this.#log = log;
    this.#webLog = webLog;
    this.#streamsMax = options.streamsMax ?? streamsMaxDefault;
    this.#limits = { ...defaultWebLimits, ...options.limits };
    this.#stopBeat = (options.startBeat ?? beatByClock)(heartBeatMs, () => this.#beat());
  }

  /** A new client's stream, from behind its last event on. Refuses with `too-many-streams`. */
  open(lastEventId: string | undefined, who: Who): EventStream {
    const link = who.link ?? null;
    this.#assertRoom(link);
    const place = lastEventId === undefined ? this.#log.newest : this.#log.placeOf(lastEventId);
    const stream = new EventStream(this.#log, place, tellOf(who), (reason) =>
      this.#webLog({ level: 'warn', event: 'stream-dropped', details: { reason } }),
    );
    this.#open.set(stream, who);
    stream.once('close', () => this.#open.delete(stream));
    return stream;
  }

  /** Ends the streams of a link that has ended, at once. */
  endOf(link: string): void {
    for (const [stream, by] of this.#open) if (by.link === link) stream.shutOut();
  }

  /** Ends the streams of a device that is out though its link goes on, at once. */
  endOfDevice(device: string): void {
    for (const [stream, by] of this.#open) if (by.device === device) stream.shutOut();
  }

  /** Ends every stream at once and stops the beat. */
  close(): void {
    this.#stopBeat();
    for (const stream of this.#open.keys()) stream.end();
  }

  /** Devices with links leave room for the station's own screens, and one link leaves room for the others. */
  #assertRoom(link: string | null): void {
    const open = this.#open.size;
    const places = link === null ? this.#streamsMax : this.#streamsMax - this.#limits.streamsReserved;
    if (open >= places) throw new Refusal('too-many-streams', `${open} pages are open, no more are served.`);
    const ofLink = [...this.#open.values()].filter((by) => by.link === link).length;
    if (link !== null && ofLink >= this.#limits.streamsPerLinkMax) {
      throw new Refusal('too-many-streams', `${ofLink} pages are open by this link, no more are served.`);
    }
  }

  #beat(): void {
    for (const stream of this.#open.keys()) stream.beat();
  }
}

/** What goes over the line to somebody of an event as it is remembered; null where nothing does. */
function tellOf(who: Who): Tell {
  if (who.scope === 'operator') return ({ block }) => block;
  return ({ block, sequence }, id) => {
    // What the log remembers was checked when it was told.
    const event = stationEvent.parse(JSON.parse(dataIn(new TextDecoder().decode(block)) ?? 'null'));
    const told = eventFor(who, event);
    return told === null
      ? null
      : eventText({ id: id(sequence), type: told.type, data: JSON.stringify(told) });
  };
}

function beatByClock(everyMs: number, beat: () => void): () => void {
  const timer = setInterval(beat, everyMs);
  timer.unref();
  return () => clearInterval(timer);
}
