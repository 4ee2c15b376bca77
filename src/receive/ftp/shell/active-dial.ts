import { Socket } from 'node:net';
import type { DataWay } from './data-way.ts';

export interface DialTarget {
  /** The client's own address, and a port of 1024 or above: the session has made sure. */
  readonly address: string;
  readonly port: number;
  /** The address the client reached us by: the connection comes from there, as its firewall expects. */
  readonly localAddress: string;
}

/** Active mode: dials the client when a transfer wants the connection, once. */
export class ActiveDial implements DataWay {
  readonly #target: DialTarget;
  #socket: Socket | null = null;
  #dialled: Promise<boolean> | null = null;
  #closed = false;

  constructor(target: DialTarget) {
    this.#target = target;
  }

  arrived(): Promise<boolean> {
    this.#dialled ??= this.#dial();
    return this.#dialled;
  }

  take(): Socket | null {
    const socket = this.#socket;
    this.#socket = null;
    return socket;
  }

  close(): void {
    this.#closed = true;
    this.take()?.destroy();
  }

  #dial(): Promise<boolean> {
    if (this.#closed) return Promise.resolve(false);
    const socket = new Socket({ allowHalfOpen: true });
    // Paused before it connects, so that every byte stays in the system until the transfer reads.
    socket.pause();
    this.#socket = socket;
    return new Promise((resolve) => {
      // Later trouble is found by the transfer when it reads.
      socket.on('error', () => resolve(false));
      socket.on('close', () => resolve(false));
      const { address: host, port, localAddress } = this.#target;
      socket.connect({ host, port, localAddress, keepAlive: true }, () => resolve(!this.#closed));
    });
  }
}
