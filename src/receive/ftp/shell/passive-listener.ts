import { randomInt } from 'node:crypto';
import { createServer, type Server, type Socket } from 'node:net';
import { errorCode } from '../../../base/index.ts';
import { plainAddress } from '../../shell/addresses.ts';
import { listen } from '../../shell/listening.ts';
import type { DataWay } from './data-way.ts';
import type { PortRange } from './options.ts';

export interface PassiveListenerEvents {
  /** The client's own data connection is here. */
  connected(): void;
  /** Somebody else came and was turned away. */
  foreign(address: string): void;
}

/**
 * One passive data port of one session: waits for the one connection it is for.
 *
 * Only the client's own address is let in; others are dropped and do not use the port up (RFC 2577 sections 4 and 8).
 * The port is chosen at random, so that the next one cannot be guessed (section 8). A connection is taken unread:
 * bytes and even its end stay in the system until a transfer wants them.
 */
export class PassiveListener implements DataWay {
  readonly port: number;
  readonly #server: Server;
  #socket: Socket | null = null;
  #waiter: ((arrived: boolean) => void) | null = null;
  #closed = false;
  #taken = false;
  #foreignTold = false;

  private constructor(server: Server, port: number, peerAddress: string, events: PassiveListenerEvents) {
    this.#server = server;
    this.port = port;
    server.on('connection', (socket) => this.#meet(socket, peerAddress, events));
    server.on('error', () => this.close());
  }

  /** Opens a port of the range, at the address that the client reached us by only; null where none is free. */
  static async open(
    range: PortRange,
    localAddress: string,
    peerAddress: string,
    events: PassiveListenerEvents,
  ): Promise<PassiveListener | null> {
    const count = range.to - range.from + 1;
    const first = randomInt(count);
    for (let tried = 0; tried < count; tried += 1) {
      const server = createServer({ pauseOnConnect: true, allowHalfOpen: true, keepAlive: true });
      const wanted = range.from + ((first + tried) % count);
      try {
        const port = await listen(server, localAddress, wanted);
        return new PassiveListener(server, port, peerAddress, events);
      } catch (trouble) {
        if (errorCode(trouble) !== 'EADDRINUSE') return null;
      }
    }
    return null;
  }

  /** Settles true once the data connection is there, false where {@link close} came first. */
  arrived(): Promise<boolean> {
    if (this.#socket !== null || this.#closed) return Promise.resolve(this.#socket !== null);
    return new Promise((resolve) => {
      this.#waiter = resolve;
    });
  }

  /** The data connection, still paused, for the caller to keep; null where there is none. */
  take(): Socket | null {
    const socket = this.#socket;
    this.#socket = null;
    return socket;
  }

  /** Shuts the port and drops a connection that nobody took. */
  close(): void {
    this.#closed = true;
    this.#server.close();
    this.take()?.destroy();
    this.#tellWaiter(false);
  }

  #tellWaiter(arrived: boolean): void {
    this.#waiter?.(arrived);
    this.#waiter = null;
  }

  /** Once for each port: who knocks for ever must not fill the camera's log. */
  #tellForeign(address: string, events: PassiveListenerEvents): void {
    if (!this.#foreignTold) events.foreign(address);
    this.#foreignTold = true;
  }

  #meet(socket: Socket, peerAddress: string, events: PassiveListenerEvents): void {
    // Whatever happens to a connection before a transfer takes it, the transfer finds out when it reads.
    socket.on('error', () => {});
    const address = plainAddress(socket.remoteAddress);
    if (this.#closed || this.#taken || address !== peerAddress) {
      socket.destroy();
      if (address !== peerAddress) this.#tellForeign(address, events);
      return;
    }
    this.#taken = true;
    this.#server.close();
    this.#socket = socket;
    this.#tellWaiter(true);
    events.connected();
  }
}
