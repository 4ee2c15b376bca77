import type { Socket } from 'node:net';
import type { FtpLimits } from '../core/limits.ts';

/** A listing being sent: pieces to socket, no faster than the client takes them. */
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
      stall.refresh();
      for (let step = iterator.next(); ; step = iterator.next()) {
        if (step.done === true) {
          socket.end();
          return;
        }
        if (!socket.write(step.value)) return;
      }
    };
    socket.on('drain', goOn);
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
