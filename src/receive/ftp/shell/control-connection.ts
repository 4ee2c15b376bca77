import type { Socket } from 'node:net';
import { exhaustive } from '../../../base/index.ts';
import type { Finding } from '../../../facts/index.ts';
import type { LineReport, ReportLine } from '../../core/door-keeper.ts';
import { type ControlInput, LineReader } from '../core/line-reader.ts';
import { FtpSession } from '../core/session.ts';
import type { SessionEvent, Wish } from '../core/session-events.ts';
import { plainAddress } from './addresses.ts';
import { Answers, type DoorSetting } from './answers.ts';
import { nowMs } from './clock.ts';
import { sayGoodbye } from './goodbye.ts';

/**
 * One client at the FTP door: its control socket joined to a session. All decisions are the session's; here bytes are
 * read no faster than they are worked through, and wishes are carried out.
 */
export class ControlConnection {
  /** Settles once the socket is closed and nothing of this client is under way any more. Never rejects. */
  readonly closed: Promise<void>;
  readonly #socket: Socket;
  readonly #peerAddress: string;
  readonly #lingerMs: number;
  readonly #report: (change: LineReport['change'], finding: Finding) => void;
  readonly #session: FtpSession;
  readonly #reader: LineReader;
  readonly #answers: Answers;
  readonly #over: Promise<void>;
  #isOver: () => void = () => {};
  #alarm: NodeJS.Timeout | null = null;
  #reading = false;
  /** The session failed by a fault of ours and is not asked any more. */
  #broken = false;

  constructor(socket: Socket, number: number, door: DoorSetting, report: ReportLine) {
    const peerAddress = plainAddress(socket.remoteAddress);
    const localAddress = plainAddress(socket.localAddress);
    const { limits } = door.options;
    this.#socket = socket;
    this.#peerAddress = peerAddress;
    this.#lingerMs = limits.lingerMs;
    this.#session = new FtpSession({ limits, peerAddress, localAddress });
    this.#reader = new LineReader(limits);
    this.#answers = new Answers(door, peerAddress, localAddress, {
      connected: () => this.#feed({ kind: 'data-connected' }),
      foreign: (address) => this.#feed({ kind: 'foreign-data', address }),
    });
    this.#report = (change, finding) => {
      report({ camera: this.#session.camera, address: peerAddress, connection: number, change, finding });
    };
    this.#over = new Promise((resolve) => {
      this.#isOver = resolve;
    });
    this.closed = this.#watch();
  }

  /** The station is shutting down: a running transfer is ended, the client told, the connection closed. */
  stop(): void {
    this.#feed({ kind: 'stopping' });
  }

  #watch(): Promise<void> {
    const socket = this.#socket;
    socket.on('data', (chunk: Buffer) => {
      this.#reader.push(chunk);
      this.#read();
    });
    socket.on('drain', () => this.#read());
    socket.on('end', () => this.#feed({ kind: 'control-ended' }));
    socket.on('error', () => this.#feed({ kind: 'control-lost' }));
    const socketClosed = new Promise<void>((resolve) => {
      socket.on('close', () => {
        this.#feed({ kind: 'control-lost' });
        resolve();
      });
    });
    this.#feed({ kind: 'opened' });
    return Promise.all([socketClosed, this.#over]).then(() => {});
  }

  #feed(event: SessionEvent): void {
    if (this.#broken) return;
    try {
      for (const wish of this.#session.handle(event, nowMs())) this.#carryOut(wish);
    } catch {
      this.#breakDown();
      return;
    }
    this.#setAlarm();
    this.#read();
  }

  /** Works through what was received, as far as the session will hear it and the client takes its replies. */
  #read(): void {
    if (this.#reading || this.#broken || this.#session.isOver) return;
    this.#reading = true;
    let input: ControlInput | null = null;
    let mayHear = this.#mayHear;
    while (mayHear && !this.#broken) {
      input = this.#reader.next();
      if (input === null) break;
      this.#feed({ kind: 'input', input, transferredBytes: this.#answers.transferredBytes });
      mayHear = this.#mayHear;
    }
    this.#reading = false;
    if (this.#broken || this.#session.isOver) return;
    if (mayHear) this.#socket.resume();
    else this.#socket.pause();
  }

  get #mayHear(): boolean {
    return this.#session.wantsInput && !this.#socket.writableNeedDrain;
  }

  #carryOut(wish: Wish): void {
    switch (wish.kind) {
      case 'ask':
        this.#answers.answer(wish.question).then(
          (answer) => this.#feed({ kind: 'done', answer }),
          () => this.#breakDown(),
        );
        break;
      case 'send':
        if (this.#socket.writable) this.#socket.write(wish.bytes);
        break;
      case 'report':
        this.#report(wish.change, wish.finding);
        break;
      case 'close-data':
        this.#answers.closeData();
        break;
      case 'interrupt':
        this.#answers.interrupt(wish.why);
        break;
      case 'hang-up':
        sayGoodbye(this.#socket, this.#lingerMs);
        this.#isOver();
        break;
      default:
        exhaustive(wish);
    }
  }

  #setAlarm(): void {
    if (this.#alarm !== null) clearTimeout(this.#alarm);
    const atMs = this.#session.alarmAtMs;
    this.#alarm =
      atMs === null ? null : setTimeout(() => this.#feed({ kind: 'alarm' }), Math.max(0, atMs - nowMs()));
  }

  /** A fault of our own costs this client its connection and nobody else anything. */
  #breakDown(): void {
    if (this.#broken) return;
    this.#broken = true;
    if (this.#alarm !== null) clearTimeout(this.#alarm);
    this.#report('note', { code: 'line.fault', args: { address: this.#peerAddress } });
    this.#socket.destroy();
    this.#answers.abandon().then(this.#isOver);
  }
}
