import { Readable } from 'node:stream';
import { eventIdText } from './core/event-id.ts';
import type { EventLog, LoggedEvent } from './core/event-log.ts';
import { eventText, heartBeatText, openingText } from './core/event-text.ts';

/** How long a client waits before it comes back after the line broke. */
const retryMs = 2000;

/** Taken out of the log in one go; small, so that little lies in buffers that belong to one client. */
const pieceBytesMax = 64 * 1024;

/**
 * After so many heart-beats during which the client took nothing it is gone or asleep: one minute at 15 s, the time
 * after which a phone's browser has given up a hidden page's connection (common practice, no source).
 */
export const beatsWithoutReadingMax = 4;

/** What goes over the line of an event, for one client; null where nothing does. `id` makes the text of an event's id. */
export type Tell = (event: LoggedEvent, id: (sequence: number) => string) => Uint8Array | string | null;

/**
 * The events as one client gets them. It holds a place in the log and pulls what lies behind it when the client has
 * room; nothing is pushed at a client that does not read.
 */
export class EventStream extends Readable {
  readonly #log: EventLog;
  readonly #tell: Tell;
  readonly #onDrop: (why: DropReason) => void;
  readonly #unsubscribe: () => void;
  #place: number;
  /** Whether the client has room. */
  #wanted = false;
  /** Told its end; one that does not even read that is cut off at the next beat. */
  #isOver = false;
  #beatsWithoutReading = 0;

  /** `place` null means that what the client missed is not remembered: it is told to load everything again. */
  constructor(log: EventLog, place: number | null, tell: Tell, onDrop: (why: DropReason) => void) {
    // No reading ahead: `_read` then means that the client's socket has room, and nothing else.
    super({ highWaterMark: 0 });
    this.#log = log;
    this.#tell = tell;
    this.#onDrop = onDrop;
    this.#place = place ?? log.newest;
    this.push(openingText(retryMs, eventIdText({ run: log.run, sequence: this.#place })));
    if (place === null) this.push(this.#resyncText());
    this.#unsubscribe = log.subscribe(() => this.#wake());
  }

  override _read(): void {
    this.#wanted = true;
    this.#beatsWithoutReading = 0;
    if (!this.#isOver) this.#take();
  }

  override _destroy(error: Error | null, callback: (error?: Error | null) => void): void {
    this.#unsubscribe();
    callback(error);
  }

  /** Called every 15 s: keeps the line open, and gives up a client that has taken nothing for too long. */
  beat(): void {
    if (this.#isOver) {
      this.destroy();
      return;
    }
    if (this.#wanted) {
      this.#give(heartBeatText);
      return;
    }
    this.#beatsWithoutReading += 1;
    if (this.#beatsWithoutReading >= beatsWithoutReadingMax) this.#drop('took-nothing');
  }

  /** The station stops: the client comes back by itself when it runs again. */
  end(): void {
    this.push(null);
  }

  /** The client’s link has ended: it is told so, and nothing more comes. */
  shutOut(): void {
    this.push(eventText({ id: '', type: 'shut-out', data: JSON.stringify({ type: 'shut-out' }) }));
    this.push(null);
    this.#isOver = true;
    this.#unsubscribe();
  }

  #wake(): void {
    if (this.#wanted) this.#take();
    else if (this.#log.after(this.#place, 0) === null) this.#drop('fell-behind');
  }

  #take(): void {
    const events = this.#log.after(this.#place, pieceBytesMax);
    if (events === null) {
      this.#drop('fell-behind');
      return;
    }
    for (const event of events) {
      this.#place = event.sequence;
      const told = this.#tell(event, (sequence) => eventIdText({ run: this.#log.run, sequence }));
      if (told !== null) this.#give(told);
    }
  }

  #give(piece: Uint8Array | string): void {
    this.#wanted = false;
    this.push(piece);
  }

  /** It comes back with its last id and is told to load everything again; until then it costs nothing. */
  #drop(why: DropReason): void {
    this.#onDrop(why);
    this.destroy();
  }

  #resyncText(): string {
    return eventText({
      id: eventIdText({ run: this.#log.run, sequence: this.#place }),
      type: 'resync',
      data: JSON.stringify({ type: 'resync' }),
    });
  }
}

/** `fell-behind`: what it had still to get is forgotten. `took-nothing`: it did not read for a minute. */
export type DropReason = 'fell-behind' | 'took-nothing';
