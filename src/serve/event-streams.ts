import type { EventLog } from './core/event-log.ts';
import { Refusal } from './errors.ts';
import { EventStream } from './event-stream.ts';
import type { WebLog } from './web-log.ts';

/** Shorter than any idle time-out in the way: the connection's own of 120 s, a router's of one minute and more. */
export const heartBeatMs = 15_000;

/** Pages open at once: screens on the set, phones, a few tabs forgotten. Each costs a socket and a place in the log. */
export const streamsMaxDefault = 64;

export interface EventStreamsOptions {
  readonly streamsMax?: number;
  /** Calls `beat` every `everyMs` until the returned function is called; tests pass one they turn by hand. */
  readonly startBeat?: (everyMs: number, beat: () => void) => () => void;
}

/** All open event streams: bounds their number, beats for them, ends them when the station stops. */
export class EventStreams {
  readonly #log: EventLog;
  readonly #webLog: WebLog;
  readonly #streamsMax: number;
  readonly #open = new Set<EventStream>();
  readonly #stopBeat: () => void;

  constructor(log: EventLog, webLog: WebLog, options: EventStreamsOptions = {}) {
    this.#log = log;
    this.#webLog = webLog;
    this.#streamsMax = options.streamsMax ?? streamsMaxDefault;
    this.#stopBeat = (options.startBeat ?? beatByClock)(heartBeatMs, () => this.#beat());
  }

  /** A new client's stream, from behind its last event on. Refuses with `too-many-streams`. */
  open(lastEventId: string | undefined): EventStream {
    if (this.#open.size >= this.#streamsMax) {
      throw new Refusal('too-many-streams', `${this.#open.size} pages are open, no more are served.`);
    }
    const place = lastEventId === undefined ? this.#log.newest : this.#log.placeOf(lastEventId);
    const stream = new EventStream(this.#log, place, (reason) =>
      this.#webLog({ level: 'warn', event: 'stream-dropped', details: { reason } }),
    );
    this.#open.add(stream);
    stream.once('close', () => this.#open.delete(stream));
    return stream;
  }

  /** Ends every stream at once and stops the beat. */
  close(): void {
    this.#stopBeat();
    for (const stream of this.#open) stream.end();
  }

  #beat(): void {
    for (const stream of this.#open) stream.beat();
  }
}

function beatByClock(everyMs: number, beat: () => void): () => void {
  const timer = setInterval(beat, everyMs);
  timer.unref();
  return () => clearInterval(timer);
}
