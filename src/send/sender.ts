import { setTimeout as waitMs } from 'node:timers/promises';
import type { DestinationPlace } from '../contract/index.ts';
import type { Finding } from '../facts/index.ts';
import { SendFailure } from './core/failure.ts';
import { pauseBefore, type SendLimits } from './core/limits.ts';
import { openPlace } from './open.ts';
import type { FileToSend, OpenPlace, SendWatch, Sent } from './open-place.ts';

export interface SenderOptions {
  readonly place: DestinationPlace;
  /** Asked anew for each connection. Rejects with `SendFailure`. */
  readonly secret: () => Promise<string | null>;
  readonly below: readonly string[];
  readonly limits: SendLimits;
  /** Hears why it tries again, and null when it gets further. */
  readonly onTrouble?: (finding: Finding | null) => void;
  readonly wait?: (ms: number, signal: AbortSignal) => Promise<void>;
  readonly open?: typeof openPlace;
}

/** Sends files to one destination over a connection that is kept between them, and tries again where that may help. */
export class Sender {
  readonly #options: SenderOptions;
  #open: OpenPlace | null = null;

  constructor(options: SenderOptions) {
    this.#options = options;
  }

  /**
   * Sends a file. Attempts that bring it further do not count against their number. Rejects with `SendFailure`, its last one where
   * trying again did not help, and with the signal's reason.
   */
  async send(file: FileToSend, watch: SendWatch): Promise<Sent> {
    const { limits, wait = pause, onTrouble = () => {} } = this.#options;
    let furthest = 0;
    let inVain = 0;
    const progress = (bytes: number): void => {
      if (bytes > furthest) {
        furthest = bytes;
        if (inVain > 0) onTrouble(null);
        inVain = 0;
      }
      watch.progress(bytes);
    };
    for (;;) {
      watch.signal.throwIfAborted();
      try {
        this.#open ??= await this.#connect(watch.signal);
        const sent = await this.#open.send(file, { ...watch, progress });
        if (inVain > 0) onTrouble(null);
        return sent;
      } catch (thrown) {
        watch.signal.throwIfAborted();
        const again = thrown instanceof SendFailure && thrown.next === 'again';
        // Whatever went wrong, nothing is known of the connection; a file that is not to be sent has not harmed it.
        if (!(thrown instanceof SendFailure && thrown.next === 'file')) this.close();
        inVain += 1;
        if (!again || inVain >= limits.triesMax) throw thrown;
        onTrouble(thrown.finding);
        await wait(pauseBefore(inVain, limits), watch.signal);
      }
    }
  }

  /** Gives up what was begun of a file. Rejects with `SendFailure`. */
  async letGo(file: FileToSend, token: string | null, signal: AbortSignal): Promise<void> {
    this.#open ??= await this.#connect(signal);
    await this.#open.letGo(file, token);
  }

  async remove(name: string, signal: AbortSignal): Promise<void> {
    this.#open ??= await this.#connect(signal);
    await this.#open.remove(name);
  }

  close(): void {
    this.#open?.close();
    this.#open = null;
  }

  async #connect(signal: AbortSignal): Promise<OpenPlace> {
    const { place, below, limits, secret, open = openPlace } = this.#options;
    return open({ place, secret: await secret(), below, limits, signal });
  }
}

async function pause(ms: number, signal: AbortSignal): Promise<void> {
  await waitMs(ms, undefined, { signal });
}
