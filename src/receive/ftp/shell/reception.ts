import type { Socket } from 'node:net';
import type { Arrival, ArrivalEnd } from '../../core/camera-folder.ts';
import type { BufferPool } from '../../shell/buffer-pool.ts';
import { nowMs } from '../../shell/clock.ts';
import { Intake } from '../../shell/intake.ts';
import type { FtpLimits } from '../core/limits.ts';
import { type DataReader, readData } from './data-reader.ts';

export interface ReceptionEnd {
  readonly end: ArrivalEnd;
  readonly bytes: number;
}

/** One file being received: socket to arrival, until one of them ends, nothing comes for too long, or it is told to. */
export class Reception {
  /** Settles once everything received was written or a write failed. Never rejects. */
  readonly ended: Promise<ReceptionEnd>;
  readonly #intake: Intake;
  readonly #reader: DataReader;
  readonly #stall: NodeJS.Timeout;
  readonly #crawl: NodeJS.Timeout;
  readonly #crawlBytesMin: number;
  #crawledBytes = 0;
  #heardMs = nowMs();
  #end: (end: ArrivalEnd) => void = () => {};

  constructor(socket: Socket, arrival: Arrival, limits: FtpLimits, pool: BufferPool) {
    const why = new Promise<ArrivalEnd>((resolve) => {
      this.#end = resolve;
    });
    this.#intake = new Intake(arrival, limits, pool, {
      room: () => this.#reader.goOn(),
      failed: () => this.#end('failed'),
    });
    this.#stall = setTimeout(() => this.#stalled(), limits.stallMs);
    this.#crawlBytesMin = limits.crawlBytesMin;
    this.#crawl = setInterval(() => this.#lookForCrawl(), limits.crawlMs);
    this.#reader = readData(socket, {
      room: () => this.#intake.room(),
      received: (bytes) => {
        this.#stall.refresh();
        this.#heardMs = nowMs();
        return this.#intake.received(bytes);
      },
      ended: (how) => this.#end(how),
    });
    this.ended = why.then((end) => this.#wind(end));
  }

  get receivedBytes(): number {
    return this.#intake.receivedBytes;
  }

  /** How long nothing has come. */
  get silentMs(): number {
    return nowMs() - this.#heardMs;
  }

  /** Ends the reception from our side. */
  interrupt(end: ArrivalEnd): void {
    this.#end(end);
  }

  /** Silence is the client's only while we are reading; a slow disk stops us, not the client. */
  #stalled(): void {
    if (this.#intake.isStopped) this.#stall.refresh();
    else this.#end('stalled');
  }

  /** Drips that are never silent; a disk that holds the line up is no fault of the client. */
  #lookForCrawl(): void {
    const bytes = this.receivedBytes - this.#crawledBytes;
    this.#crawledBytes = this.receivedBytes;
    if (bytes < this.#crawlBytesMin && !this.#intake.isStopped) this.#end('stalled');
  }

  async #wind(end: ArrivalEnd): Promise<ReceptionEnd> {
    clearTimeout(this.#stall);
    clearInterval(this.#crawl);
    this.#reader.destroy();
    await this.#intake.drain();
    return { end: this.#intake.failure === null ? end : 'failed', bytes: this.#intake.receivedBytes };
  }
}
