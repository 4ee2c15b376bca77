import { once } from 'node:events';
import { connect, type Socket } from 'node:net';
import { type ConnectionOptions, connect as connectTls, type TLSSocket } from 'node:tls';

export interface WireReply {
  readonly code: number;
  /** Lines without their ends, as latin1 text so that every byte is one character. */
  readonly lines: readonly string[];
}

/** How long a test waits for a reply before it fails: generous, since the machine may be busy. */
const patienceMs = 15_000;

/**
 * The barest FTP client there can be: bytes out, replies in, nothing assumed. It checks of every reply that its lines
 * end in CR LF and that a multi-line reply closes with its own code (RFC 959 section 4.2).
 */
export class Wire {
  socket: Socket;
  readonly host: string;
  /** Telnet commands the server sent, as latin1. */
  telnet = '';
  readonly #replies: WireReply[] = [];
  #lines: string[] = [];
  #rest = '';
  #wake: () => void = () => {};
  #ended = false;

  private constructor(socket: Socket, host: string) {
    this.socket = socket;
    this.host = host;
    this.#hear(socket);
  }

  static async open(port: number, options: { host?: string; from?: string } = {}): Promise<Wire> {
    const host = options.host ?? '127.0.0.1';
    const socket = connect({
      port,
      host,
      ...(options.from === undefined ? {} : { localAddress: options.from }),
    });
    await once(socket, 'connect');
    return new Wire(socket, host);
  }

  /** Opened, greeted and logged in. */
  static async loggedIn(port: number, options: { host?: string; from?: string } = {}): Promise<Wire> {
    const wire = await Wire.open(port, options);
    await wire.reply();
    await wire.command('USER camera');
    await wire.command('PASS right');
    return wire;
  }

  send(what: string | Uint8Array): void {
    this.socket.write(typeof what === 'string' ? Buffer.from(what, 'utf8') : what);
  }

  /** The next reply; rejects where the connection ends or nothing comes. */
  async reply(): Promise<WireReply> {
    const reply = await this.#next();
    if (reply === null) throw new Error('the connection ended before a reply');
    return reply;
  }

  async command(line: string): Promise<WireReply> {
    this.send(`${line}\r\n`);
    return this.reply();
  }

  /** The codes of the replies to several commands, one after the other. */
  async codes(...lines: readonly string[]): Promise<number[]> {
    const codes: number[] = [];
    for (const line of lines) codes.push((await this.command(line)).code);
    return codes;
  }

  /** Settles once the server has closed; replies that came before can still be taken. */
  async ended(): Promise<void> {
    await this.#until(() => this.#ended);
  }

  /** The port of a fresh passive listener. */
  async passive(way: 'EPSV' | 'PASV' = 'EPSV'): Promise<number> {
    const { code, lines } = await this.command(way);
    const text = lines.join('\n');
    const numbers = /\((\d+),(\d+),(\d+),(\d+),(\d+),(\d+)\)/.exec(text);
    if (code === 227 && numbers !== null) return Number(numbers[5]) * 256 + Number(numbers[6]);
    const extended = /\(\|\|\|(\d+)\|\)/.exec(text);
    if (code === 229 && extended !== null) return Number(extended[1]);
    throw new Error(`no passive port in: ${text}`);
  }

  /** An open data connection. */
  async data(way: 'EPSV' | 'PASV' = 'EPSV'): Promise<Socket> {
    return openData(await this.passive(way), this.host);
  }

  /** Sends a whole file and gives the codes of its replies: `[150, 226]` when all is well. */
  async store(line: string, bytes: Uint8Array, way: 'EPSV' | 'PASV' = 'EPSV'): Promise<number[]> {
    const data = await this.data(way);
    const first = await this.command(line);
    if (first.code !== 150) {
      await gone(data);
      return [first.code];
    }
    data.end(bytes);
    return [first.code, (await this.reply()).code];
  }

  /** The text of a listing, as latin1. */
  async listing(line: string): Promise<{ readonly codes: readonly number[]; readonly text: string }> {
    const data = await this.data();
    const first = await this.command(line);
    if (first.code !== 150) return { codes: [first.code], text: '' };
    const text = await allOf(data);
    return { codes: [first.code, (await this.reply()).code], text };
  }

  /**
   * Turns the connection to TLS from the client's side, as after the 234 of AUTH TLS. Rejects where the handshake
   * fails; an answer that could not be verified fails it.
   */
  async secure(options: ConnectionOptions): Promise<TLSSocket> {
    this.socket.removeAllListeners('data').removeAllListeners('end').removeAllListeners('close');
    const tls = connectTls({ host: this.host, ...options, socket: this.socket });
    await new Promise<void>((resolve, reject) => {
      tls.once('secureConnect', resolve).once('error', reject);
      tls.once('close', () => reject(new Error('the connection ended within the handshake')));
    });
    this.socket = tls;
    this.#hear(tls);
    return tls;
  }

  close(): void {
    this.socket.destroy();
  }

  #hear(socket: Socket): void {
    socket.setEncoding('latin1');
    socket.on('data', (text: string) => this.#take(text));
    for (const event of ['end', 'close', 'error']) socket.on(event, () => this.#finish());
  }

  async #next(): Promise<WireReply | null> {
    await this.#until(() => this.#replies.length > 0 || this.#ended);
    return this.#replies.shift() ?? null;
  }

  async #until(met: () => boolean): Promise<void> {
    const deadline = Date.now() + patienceMs;
    while (!met()) {
      const left = deadline - Date.now();
      if (left <= 0) throw new Error(`nothing came for ${patienceMs} ms`);
      await new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, left);
        this.#wake = () => {
          clearTimeout(timer);
          resolve();
        };
      });
    }
  }

  #finish(): void {
    this.#ended = true;
    this.#wake();
  }

  #take(text: string): void {
    const lines = this.#withoutTelnet(this.#rest + text).split('\r\n');
    this.#rest = lines.pop() ?? '';
    for (const line of lines) this.#takeLine(line);
    this.#wake();
  }

  /** Takes the three-byte negotiations of RFC 854 out, and halves a doubled IAC. */
  #withoutTelnet(text: string): string {
    return text.replace(/\u00ff(?:([\u00fb-\u00fe].)|\u00ff)/gs, (found, negotiation: string | undefined) => {
      if (negotiation === undefined) return '\u00ff';
      this.telnet += found;
      return '';
    });
  }

  #takeLine(line: string): void {
    if (/[\r\n]/.test(line)) throw new Error(`a bare CR or LF in a reply: ${JSON.stringify(line)}`);
    this.#lines.push(line);
    const first = this.#lines[0] ?? '';
    const code = first.slice(0, 3);
    const isLast = first[3] === '-' ? this.#lines.length > 1 && line.startsWith(`${code} `) : true;
    if (!isLast) return;
    if (!/^[1-5]\d\d[ -]/.test(first)) throw new Error(`not a reply: ${JSON.stringify(this.#lines)}`);
    this.#replies.push({ code: Number(code), lines: this.#lines });
    this.#lines = [];
  }
}

export async function openData(port: number, host = '127.0.0.1', from?: string): Promise<Socket> {
  const socket = connect({ port, host, ...(from === undefined ? {} : { localAddress: from }) });
  socket.on('error', () => {});
  await once(socket, 'connect');
  return socket;
}

/** Everything a data connection brings until it ends, as latin1. */
export async function allOf(data: Socket): Promise<string> {
  let text = '';
  data.setEncoding('latin1');
  data.on('data', (part: string) => {
    text += part;
  });
  await once(data, 'end');
  data.destroy();
  return text;
}

/** Settles once the other side has closed a connection, in order or not. */
export async function gone(data: Socket): Promise<void> {
  if (data.destroyed) return;
  data.resume();
  await new Promise<void>((resolve) => {
    data.once('end', resolve);
    data.once('close', resolve);
  });
  data.destroy();
}

/** Polls a condition: the way to wait for what another part of the program does. */
export async function eventually(met: () => boolean, what: string): Promise<void> {
  const deadline = Date.now() + patienceMs;
  while (!met()) {
    if (Date.now() > deadline) throw new Error(`did not come to be within ${patienceMs} ms: ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
}
