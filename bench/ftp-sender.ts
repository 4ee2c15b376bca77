import { once } from 'node:events';
import { connect, type Socket } from 'node:net';
import type { BenchStation } from './station.ts';

/** When how many bytes had been handed to the system. */
export interface SentPoint {
  readonly atMs: number;
  readonly bytes: number;
}

/** A camera reduced to what a bench needs: one control connection, uploads at a pace or as fast as the line goes. */
export class FtpSender {
  readonly #control: Socket;
  #text = '';

  private constructor(control: Socket) {
    this.#control = control;
    control.setEncoding('latin1').on('data', (chunk: string) => {
      this.#text += chunk;
    });
  }

  static async open(station: BenchStation): Promise<FtpSender> {
    const control = connect(station.ftpPort, '127.0.0.1');
    const sender = new FtpSender(control);
    await once(control, 'connect');
    await sender.#reply();
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
    const data = connect(Number(/\|\|\|(\d+)\|/.exec(passive)?.[1]), '127.0.0.1');
    await once(data, 'connect');
    await this.#ask(`STOR ${name}`);
    const sent = Number.isFinite(bytesPerSecond)
      ? await sendPaced(data, bytes, bytesPerSecond)
      : await sendAll(data, bytes);
    const reply = await this.#reply();
    if (!reply.startsWith('226')) throw new Error(`${name}: ${reply}`);
    return sent;
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
