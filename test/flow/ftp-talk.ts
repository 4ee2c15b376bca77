import { once } from 'node:events';
import { connect, type Socket } from 'node:net';
import type { RunningStation } from './running-station.ts';

/** A control connection spoken by hand, for what no client would send. */
export class FtpTalk {
  readonly #socket: Socket;
  #text = '';
  #wake: () => void = () => {};

  private constructor(socket: Socket) {
    this.#socket = socket;
    socket.setEncoding('latin1');
    socket.on('data', (chunk: string) => {
      this.#text += chunk;
      this.#wake();
    });
    socket.on('close', () => this.#wake());
    socket.on('error', () => this.#wake());
  }

  static async open(station: { readonly ready: Pick<RunningStation['ready'], 'ftp'> }): Promise<FtpTalk> {
    const socket = connect(station.ready.ftp ?? 0, '127.0.0.1');
    const talk = new FtpTalk(socket);
    await once(socket, 'connect');
    await talk.reply();
    return talk;
  }

  static async logIn(station: RunningStation): Promise<FtpTalk> {
    const talk = await FtpTalk.open(station);
    await talk.ask(`USER ${station.user}`);
    await talk.ask(`PASS ${station.password}`);
    return talk;
  }

  /** Sends a line, gives the final line of the reply. */
  async ask(line: string): Promise<string> {
    this.#socket.write(`${line}\r\n`, 'utf8');
    return this.reply();
  }

  /** The final line of the next reply (RFC 959 4.2: the code and a space). */
  async reply(): Promise<string> {
    for (;;) {
      const found = /^(?:\d{3}-[\s\S]*?)?(\d{3} [^\r\n]*)\r\n/m.exec(this.#text);
      if (found !== null) {
        this.#text = this.#text.slice(found.index + found[0].length);
        return found[1] ?? '';
      }
      if (this.#socket.destroyed) throw new Error(`the connection ended; last heard: ${this.#text}`);
      await new Promise<void>((resolve) => {
        this.#wake = resolve;
      });
    }
  }

  /** Uploads by EPSV and STOR; gives the last reply. */
  async store(name: string, bytes: Uint8Array): Promise<string> {
    const passive = await this.ask('EPSV');
    const port = Number(/\(\|\|\|(\d+)\|\)/.exec(passive)?.[1]);
    const data = connect(port, '127.0.0.1');
    data.on('error', () => {});
    const first = await this.ask(`STOR ${name}`);
    if (!first.startsWith('1')) {
      data.destroy();
      return first;
    }
    data.end(bytes);
    return this.reply();
  }

  close(): void {
    this.#socket.destroy();
  }
}
