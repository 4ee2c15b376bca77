import type { Socket } from 'node:net';
import type { TLSSocket } from 'node:tls';
import { exhaustive } from '../../../base/index.ts';
import type { Finding } from '../../../facts/index.ts';
import type { DismissReason, LineReport, ReportLine } from '../../core/door-keeper.ts';
import { plainAddress } from '../../shell/addresses.ts';
import { nowMs } from '../../shell/clock.ts';
import { type ControlInput, LineReader } from '../core/line-reader.ts';
import type { Question, Questions } from '../core/questions.ts';
import { formatReply, type Reply } from '../core/reply.ts';
import { FtpSession } from '../core/session.ts';
import type { SessionEvent, Wish } from '../core/session-events.ts';
import { Answers, type DoorSetting } from './answers.ts';
import { sayGoodbye } from './goodbye.ts';
import { handshake } from './tls/handshake.ts';
import type { ResolvedTlsOptions } from './tls/options.ts';
import { TlsPeer } from './tls/tls-peer.ts';

/**
 * One client at the FTP door: its control socket joined to a session. All decisions are the session's; here bytes are
 * read no faster than they are worked through, and wishes are carried out.
 */
export class ControlConnection {
  /** Settles once the socket is closed and nothing of this client is under way any more. Never rejects. */
  readonly closed: Promise<void>;
  readonly #door: DoorSetting;
  readonly #peerAddress: string;
  readonly #report: (change: LineReport['change'], finding: Finding) => void;
  readonly #session: FtpSession;
  readonly #answers: Answers;
  readonly #over: Promise<void>;
  #isOver: () => void = () => {};
  #isClosed: () => void = () => {};
  #socket: Socket;
  #reader: LineReader;
  /** Stops hearing the socket. */
  #unhear: () => void = () => {};
  #handshaking: TLSSocket | null = null;
  #alarm: NodeJS.Timeout | null = null;
  #reading = false;
  /** The session is not asked: not yet, before an implicit handshake, or not any more, after a fault of ours. */
  #deaf = false;

  constructor(socket: Socket, number: number, door: DoorSetting, report: ReportLine) {
    const peerAddress = plainAddress(socket.remoteAddress);
    const localAddress = plainAddress(socket.localAddress);
    const { limits, tls } = door.options;
    this.#door = door;
    this.#socket = socket;
    this.#peerAddress = peerAddress;
    this.#session = new FtpSession({ limits, peerAddress, localAddress, tls });
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

  /** Who is logged in, or null. */
  get camera(): string | null {
    return this.#session.camera;
  }

  /** The station is shutting down: a running transfer is ended, the client told, the connection closed. */
  stop(): void {
    if (this.#deaf) this.#handshaking?.destroy();
    this.#feed({ kind: 'stopping' });
  }

  /** The same for a camera that may not stay. */
  dismiss(why: DismissReason): void {
    const { camera } = this;
    if (camera !== null) this.#report('note', { code: 'line.dismissed', args: { camera, why } });
    this.#feed({ kind: 'dismissed' });
  }

  #watch(): Promise<void> {
    const socketClosed = new Promise<void>((resolve) => {
      this.#isClosed = resolve;
    });
    if (this.#door.options.tls?.start === 'implicit') {
      this.#openImplicitly();
    } else {
      this.#hear(this.#socket);
      this.#feed({ kind: 'opened' });
    }
    return Promise.all([socketClosed, this.#over]).then(() => {});
  }

  #hear(socket: Socket): void {
    const data = (chunk: Buffer): void => {
      this.#reader.push(chunk);
      this.#read();
    };
    const drain = (): void => this.#read();
    const end = (): void => this.#feed({ kind: 'control-ended' });
    const error = (): void => this.#feed({ kind: 'control-lost' });
    const close = (): void => {
      this.#feed({ kind: 'control-lost' });
      this.#isClosed();
    };
    socket.on('data', data).on('drain', drain).on('end', end).on('error', error).on('close', close);
    this.#unhear = () => {
      socket.off('data', data).off('drain', drain).off('end', end).off('error', error).off('close', close);
      socket.on('error', () => {});
    };
  }

  /** TLS from the first byte: nobody is greeted before the handshake is done. */
  async #openImplicitly(): Promise<void> {
    this.#deaf = true;
    const outcome = await this.#secure(null).catch(() => 'fault' as const);
    if (outcome === 'secured') {
      this.#deaf = false;
      this.#feed({ kind: 'opened' });
      return;
    }
    if (outcome === 'fault') this.#reportFault();
    if (outcome !== 'failed') {
      this.#hear(this.#socket);
      this.#socket.destroy();
    }
    this.#isOver();
  }

  /**
   * Turns the connection to TLS, behind `ready` said in clear. Whatever was said in clear after AUTH is thrown away,
   * wherever it lies: in the line reader, or in the socket, which is not read again before TLS reads it.
   */
  async #secure(ready: Reply | null): Promise<Questions['secure'][1]> {
    const { options, handshakes } = this.#door;
    const over = options.tls === null ? null : handshakes.begin(this.#peerAddress);
    if (options.tls === null || over === null) return 'busy';
    try {
      return await this.#secureWith(options.tls, ready);
    } finally {
      over();
    }
  }

  async #secureWith(options: ResolvedTlsOptions, ready: Reply | null): Promise<'secured' | 'failed'> {
    const { limits } = this.#door.options;
    const peer = new TlsPeer(options);
    const clear = this.#socket;
    this.#unhear();
    this.#reader = new LineReader(limits);
    if (ready !== null) {
      clear.pause();
      clear.read();
      clear.write(formatReply(ready));
    }
    const tls = peer.control(clear);
    this.#socket = tls;
    this.#handshaking = tls;
    this.#hear(tls);
    const trouble = await handshake(tls, limits.handshakeMs);
    this.#handshaking = null;
    if (trouble === null) {
      this.#answers.secured(peer, options.start === 'implicit');
      return 'secured';
    }
    this.#report('refused', { code: 'line.tls-failed', args: { address: this.#peerAddress, why: trouble } });
    tls.destroy();
    return 'failed';
  }

  #feed(event: SessionEvent): void {
    if (this.#deaf) return;
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
    if (this.#reading || this.#deaf || this.#session.isOver) return;
    this.#reading = true;
    let input: ControlInput | null = null;
    let mayHear = this.#mayHear;
    while (mayHear && !this.#deaf) {
      input = this.#reader.next();
      if (input === null) break;
      this.#feed({ kind: 'input', input, transferredBytes: this.#answers.transferredBytes });
      mayHear = this.#mayHear;
    }
    this.#reading = false;
    if (this.#deaf || this.#session.isOver) return;
    if (mayHear) this.#socket.resume();
    else this.#socket.pause();
  }

  get #mayHear(): boolean {
    return this.#session.wantsInput && !this.#socket.writableNeedDrain;
  }

  #carryOut(wish: Wish): void {
    switch (wish.kind) {
      case 'ask':
        this.#ask(wish.question).then(
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
        this.#handshaking?.destroy();
        break;
      case 'hang-up':
        sayGoodbye(this.#socket, this.#door.options.limits.lingerMs);
        this.#isOver();
        break;
      default:
        exhaustive(wish);
    }
  }

  #ask(question: Question): Promise<unknown> {
    return question.name === 'secure' ? this.#secure(question.request.ready) : this.#answers.answer(question);
  }

  #setAlarm(): void {
    if (this.#alarm !== null) clearTimeout(this.#alarm);
    const atMs = this.#session.alarmAtMs;
    this.#alarm =
      atMs === null ? null : setTimeout(() => this.#feed({ kind: 'alarm' }), Math.max(0, atMs - nowMs()));
  }

  /** A fault of our own costs this client its connection and nobody else anything. */
  #breakDown(): void {
    if (this.#deaf) return;
    this.#deaf = true;
    if (this.#alarm !== null) clearTimeout(this.#alarm);
    this.#reportFault();
    this.#socket.destroy();
    this.#answers.abandon().then(this.#isOver);
  }

  #reportFault(): void {
    this.#report('note', { code: 'line.fault', args: { address: this.#peerAddress } });
  }
}
