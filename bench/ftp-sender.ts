import { once } from 'node:events';
import { connect, type Socket } from 'node:net';
import { type ConnectionOptions, connect as connectTls } from 'node:tls';
import type { BenchStation } from './station.ts';

/** When how many bytes had been handed to the system. */
export interface SentPoint {
  readonly atMs: number;
  readonly bytes: number;
}

/** A camera reduced to what a bench needs: one control connection, uploads at a pace or as fast as the line goes. */
export class FtpSender {
  #control: Socket;
  #text = '';
  /** How data connections are protected; null for in clear. */
  #tls: ConnectionOptions | null = null;

  private constructor(control: Socket) {
    this.#control = control;
    this.#hear(control);
  }

  #hear(control: Socket): void {
    control.setEncoding('latin1').on('data', (chunk: string) => {
      this.#text += chunk;
    });
  }

  /** Explicit FTPS with the chain verified against `root` (PEM); plain FTP where none is given. */
  static async open(station: BenchStation, root?: string): Promise<FtpSender> {
    const control = connect(station.ftpPort, '127.0.0.1');
    const sender = new FtpSender(control);
    await once(control, 'connect');
    await sender.#reply();
    if (root !== undefined) await sender.#secure({ ca: root, host: '127.0.0.1' });
    await sender.#ask(`USER ${station.user}`);
    await sender.#ask(`PASS ${station.password}`);
    await sender.#ask('TYPE I');
    return sender;
  }

  /**
   * Uploads `bytes`. `bytesPerSecond` Infinity writes with the system's own back-pressure. Gives what was sent when;
   * the last point is the last byte. Settles after the final reply, which must be 226.
   */
  async store(name: string, bytes: Uint8Array, bytesPerSecond: number): Promise<SentPoint[]> {
    const passive = await this.#ask('EPSV');
    const socket = connect(Number(/\|\|\|(\d+)\|/.exec(passive)?.[1]), '127.0.0.1');
    await once(socket, 'connect');
    await this.#ask(`STOR ${name}`);
    const data = this.#tls === null ? socket : await underTls(socket, this.#tls);
    const sent = Number.isFinite(bytesPerSecond)
      ? await sendPaced(data, bytes, bytesPerSecond)
      : await sendAll(data, bytes);
    const reply = await this.#reply();
    if (!reply.startsWith('226')) throw new Error(`${name}: ${reply}`);
    return sent;
  }

  /** The data connections resume the session of the control connection, as real clients do. */
  async #secure(options: ConnectionOptions): Promise<void> {
    await this.#ask('AUTH TLS');
    this.#control.removeAllListeners('data');
    const control = connectTls({ ...options, socket: this.#control });
    const session = once(control, 'session');
    this.#control = control;
    this.#hear(control);
    await this.#ask('PBSZ 0');
    await this.#ask('PROT P');
    const [ticket]: Buffer[] = await session;
    this.#tls = ticket === undefined ? options : { ...options, session: ticket };
  }

  close(): void {
    this.#control.end('QUIT\r\n');
  }

  async #ask(line: string): Promise<string> {
    this.#control.write(`${line}\r\n`);
    return this.#reply();
  }

  async #reply(): Promise<string> {
    for (;;) {
      const found = /^\d{3} [^\r\n]*\r\n/m.exec(this.#text);
      if (found !== null) {
        this.#text = this.#text.slice(found.index + found[0].length);
        return found[0].trim();
      }
      await once(this.#control, 'data');
    }
  }
}

export async function underTls(socket: Socket, options: ConnectionOptions): Promise<Socket> {
  const tls = connectTls({ ...options, socket });
  await once(tls, 'secureConnect');
  // The end of the other side is only met by reading.
  tls.resume();
  return tls;
}

/** Every 10 ms what the pace has earned since the start, so that a late timer is made up for. */
async function sendPaced(data: Socket, bytes: Uint8Array, bytesPerSecond: number): Promise<SentPoint[]> {
  const startMs = performance.timeOrigin + performance.now();
  const points: SentPoint[] = [];
  let sent = 0;
  while (sent < bytes.length) {
    const nowMs = performance.timeOrigin + performance.now();
    const due = Math.min(bytes.length, Math.ceil(((nowMs - startMs) / 1000) * bytesPerSecond));
    if (due > sent) {
      if (!data.write(bytes.subarray(sent, due))) await once(data, 'drain');
      sent = due;
      points.push({ atMs: performance.timeOrigin + performance.now(), bytes: sent });
    }
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
  data.end();
  return points;
}

async function sendAll(data: Socket, bytes: Uint8Array): Promise<SentPoint[]> {
  const piece = 1 << 20;
  for (let at = 0; at < bytes.length; at += piece) {
    if (!data.write(bytes.subarray(at, at + piece))) await once(data, 'drain');
  }
  data.end();
  return [{ atMs: performance.timeOrigin + performance.now(), bytes: bytes.length }];
}
