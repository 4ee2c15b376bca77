import type { ServerChannel } from 'ssh2';
import { exhaustive } from '../../../base/index.ts';
import type { Finding } from '../../../facts/index.ts';
import type { ArrivalEnd } from '../../core/camera-folder.ts';
import type { AdmittedCamera } from '../../core/door-keeper.ts';
import { nowMs } from '../../shell/clock.ts';
import type { EarlyRoom } from '../core/early-bytes.ts';
import { PacketReader } from '../core/packet-reader.ts';
import { SftpSession } from '../core/session.ts';
import type { SessionEvent, Wish } from '../core/session-events.ts';
import { Answers, type AnswersSetting } from './answers.ts';

export interface ChannelSetting extends AnswersSetting {
  readonly earlyRoom: EarlyRoom;
}

export interface ChannelEvents {
  /** The client said something. */
  heard(): void;
  report(finding: Finding): void;
  /** Whether the client takes its answers: while it does not, it is not heard. */
  takesAnswers(): boolean;
}

/**
 * One SFTP session: an SSH channel joined to the machine. Bytes are read no faster than they are worked through; what
 * is not read here, the channel's window keeps at the client (RFC 4254 section 5.2).
 */
export class SftpChannel {
  /** Settles once nothing of the session is under way any more. Never rejects. */
  readonly over: Promise<void>;
  readonly #channel: ServerChannel;
  readonly #events: ChannelEvents;
  readonly #reader: PacketReader;
  readonly #session: SftpSession;
  readonly #answers: Answers;
  #isOver: () => void = () => {};
  #unsent: Uint8Array[] = [];
  #reading = false;
  #broken = false;

  constructor(
    channel: ServerChannel,
    camera: AdmittedCamera,
    setting: ChannelSetting,
    events: ChannelEvents,
  ) {
    this.#channel = channel;
    this.#events = events;
    this.#reader = new PacketReader(setting.limits.packetBytesMax);
    this.#session = new SftpSession(setting.limits, setting.earlyRoom);
    this.#answers = new Answers(camera, setting, {
      room: () => this.goOn(),
      writeFailed: (handle, code) => this.#feed({ kind: 'write-failed', handle, code }),
      givenWay: (handle, end) => this.#feed({ kind: 'given-way', handle, end }),
    });
    this.over = new Promise((resolve) => {
      this.#isOver = resolve;
    });
    channel.on('data', (chunk: Buffer) => {
      events.heard();
      this.#reader.push(chunk);
      this.goOn();
    });
    channel.on('drain', () => this.goOn());
    // What had come before the client left is worked through first: the channel ends behind it.
    channel.on('end', () => this.#leave());
    channel.on('close', () => this.end('control-lost'));
    channel.on('error', () => this.end('control-lost'));
  }

  /** What the client sent and nobody has read. */
  get unreadBytes(): number {
    return this.#channel.readableLength;
  }

  /** Ends the session: files that were not closed break off so. */
  end(end: ArrivalEnd): void {
    this.#answers.leave();
    this.#feed({ kind: 'ended', end });
    this.#channel.end();
    this.#settle();
  }

  /** The client has said all it wanted. scp counts a session without an exit status as failed (RFC 4254 section 6.10). */
  #leave(): void {
    if (this.#channel.writable) this.#channel.exit(0);
    this.end('control-lost');
  }

  /** Works through what was received, as far as there is room for it and the client takes its answers. */
  goOn(): void {
    if (this.#reading || this.#broken) return;
    this.#reading = true;
    let mayHear = this.#mayHear;
    while (mayHear) {
      const input = this.#reader.next();
      if (input === null) break;
      if (input.kind === 'bad-length') this.#hangUp();
      else this.#feed({ kind: 'packet', packet: input });
      mayHear = this.#mayHear;
    }
    this.#reading = false;
    this.#sendAll();
    if (mayHear) this.#channel.resume();
    else this.#channel.pause();
  }

  get #mayHear(): boolean {
    return (
      !this.#broken &&
      this.#session.wantsInput &&
      !this.#answers.isBehind &&
      !this.#channel.writableNeedDrain &&
      this.#events.takesAnswers()
    );
  }

  #feed(event: SessionEvent): void {
    if (this.#broken) return;
    try {
      for (const wish of this.#session.handle(event, nowMs())) this.#carryOut(wish);
    } catch {
      this.#breakDown();
      return;
    }
    if (!this.#reading) this.#sendAll();
  }

  #carryOut(wish: Wish): void {
    switch (wish.kind) {
      case 'send':
        this.#unsent.push(wish.bytes);
        break;
      case 'ask':
        this.#answers.answer(wish.question).then(
          (answer) => {
            this.#feed({ kind: 'answer', ask: wish.ask, answer });
            this.#settle();
            this.goOn();
          },
          () => this.#breakDown(),
        );
        break;
      case 'write':
        this.#answers.write(wish.handle, wish.pieces);
        break;
      case 'report':
        this.#events.report(wish.finding);
        break;
      case 'hang-up':
        this.#hangUp();
        break;
      default:
        exhaustive(wish);
    }
  }

  /** Answers that were made together go out together: one SSH packet, not one for each. */
  #sendAll(): void {
    if (this.#unsent.length === 0) return;
    const bytes = Buffer.concat(this.#unsent);
    this.#unsent = [];
    if (this.#channel.writable) this.#channel.write(bytes);
  }

  #hangUp(): void {
    this.#events.report({ code: 'line.not-sftp', args: {} });
    this.end('control-lost');
  }

  #settle(): void {
    if (this.#session.isOver) this.#isOver();
  }

  /** A fault of our own costs this client its session and nobody else anything. */
  #breakDown(): void {
    if (this.#broken) return;
    this.#broken = true;
    this.#events.report({ code: 'line.fault', args: {} });
    this.#channel.end();
    this.#answers.abandon().then(this.#isOver);
  }
}
