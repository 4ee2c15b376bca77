import type { Socket } from 'node:net';
import type { FtpLimits } from '../core/limits.ts';

/**
 * A listing being sent: pieces to socket, no faster than the client takes them, and one in each turn of the event loop:
 * as long as the system takes what is written a long folder would otherwise be said in one breath, and every other
 * client would wait for it.
 */
export class Emission {
  /** True once everything was sent and the connection closed in order. Never rejects. */
  readonly ended: Promise<boolean>;
  #end: (sent: boolean) => void = () => {};

  constructor(socket: Socket, pieces: Iterable<Uint8Array>, limits: FtpLimits) {
    this.ended = new Promise<boolean>((resolve) => {
      this.#end = resolve;
    }).finally(() => {
      clearTimeout(stall);
      socket.destroy();
    });
    const stall = setTimeout(() => this.#end(false), limits.stallMs);
    const iterator = pieces[Symbol.iterator]();
    const goOn = (): void => {
      if (socket.destroyed) return;
      stall.refresh();
      const step = iterator.next();
      if (step.done === true) socket.end();
      else if (socket.write(step.value)) setImmediate(goOn);
    };
    socket.on('drain', () => setImmediate(goOn));
    socket.on('finish', () => this.#end(true));
    socket.on('error', () => this.#end(false));
    socket.on('close', () => this.#end(false));
    socket.resume();
    goOn();
  }

  interrupt(): void {
    this.#end(false);
  }
}
