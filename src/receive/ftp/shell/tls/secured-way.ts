import type { Socket } from 'node:net';
import type { DataWay } from '../data-way.ts';
import { handshake } from './handshake.ts';
import type { SecuredData } from './secured-data.ts';
import type { TlsPeer } from './tls-peer.ts';

export type SecuredOutcome = 'secured' | 'failed' | 'not-resumed';

export interface SecuredWayOptions {
  readonly handshakeMs: number;
  readonly mustResume: boolean;
}

/**
 * A way to a data connection that is then protected. In both modes the FTP client is the TLS client (RFC 4217 section 7).
 *
 * The handshake begins as soon as the connection is there: a client may begin it before STOR and wait for its end, or
 * wait for the 150 first.
 */
export class SecuredWay implements DataWay {
  readonly #way: DataWay;
  readonly #peer: TlsPeer;
  readonly #options: SecuredWayOptions;
  #data: SecuredData | null = null;
  #outcome: Promise<SecuredOutcome> | null = null;

  constructor(way: DataWay, peer: TlsPeer, options: SecuredWayOptions) {
    this.#way = way;
    this.#peer = peer;
    this.#options = options;
  }

  /** The connection without its handshake. */
  async arrived(): Promise<boolean> {
    const arrived = await this.#way.arrived();
    if (arrived) this.begin();
    return arrived;
  }

  /** The connection has come: its handshake begins, once. */
  begin(): void {
    const socket = this.#outcome === null ? this.#way.take() : null;
    if (socket !== null) this.#outcome = this.#secure(socket);
  }

  secured(): Promise<SecuredOutcome> {
    this.begin();
    return this.#outcome ?? Promise.resolve('failed');
  }

  take(): Socket | null {
    const data = this.#data;
    this.#data = null;
    return data;
  }

  close(): void {
    this.#way.close();
    this.take()?.destroy();
  }

  async #secure(socket: Socket): Promise<SecuredOutcome> {
    const data = this.#peer.data(socket);
    this.#data = data;
    data.on('error', () => {});
    // Nothing is read for the transfer before it wants it.
    data.pause();
    const trouble = await handshake(data, this.#options.handshakeMs);
    const outcome = outcomeOf(trouble === null, this.#options.mustResume && !data.isSessionReused());
    if (outcome !== 'secured') data.destroy();
    return outcome;
  }
}

function outcomeOf(isDone: boolean, lacksSession: boolean): SecuredOutcome {
  if (!isDone) return 'failed';
  return lacksSession ? 'not-resumed' : 'secured';
}
