import type { AddressBook } from '../../core/address-book.ts';
import type { Arrival, ArrivalEnd, ArrivalOutcome, OpenHow } from '../../core/camera-folder.ts';
import type { ChangeBudget } from '../../core/change-budget.ts';
import type { AdmittedCamera, DoorKeeper } from '../../core/door-keeper.ts';
import type { FolderAnswer } from '../../core/folder-questions.ts';
import type { BufferPool } from '../../shell/buffer-pool.ts';
import { nowMs } from '../../shell/clock.ts';
import { askFolder, folderAnswer } from '../../shell/folder-answers.ts';
import type { Uploads } from '../../shell/uploads.ts';
import type { Interruption } from '../core/command.ts';
import type { LogInAnswer, Question } from '../core/questions.ts';
import { ActiveDial } from './active-dial.ts';
import type { DataWay } from './data-way.ts';
import { Emission } from './emission.ts';
import type { ResolvedFtpDoorOptions } from './options.ts';
import { PassiveListener, type PassiveListenerEvents } from './passive-listener.ts';
import { Reception, type ReceptionEnd } from './reception.ts';
import type { HandshakeBook } from './tls/handshake-book.ts';
import { type SecuredOutcome, SecuredWay } from './tls/secured-way.ts';
import type { TlsPeer } from './tls/tls-peer.ts';

/** What all sessions of one door share. */
export interface DoorSetting {
  readonly options: ResolvedFtpDoorOptions;
  readonly keeper: DoorKeeper;
  readonly book: AddressBook;
  readonly handshakes: HandshakeBook;
  readonly pool: BufferPool;
  readonly uploads: Uploads;
  readonly budget: ChangeBudget;
}

/**
 * Answers the questions of one session: the folder, the data connection, the log-in, time. One question is open at a
 * time; {@link interrupt} ends an open one early. Holds what a session must not see: sockets and the arrival.
 */
export class Answers {
  readonly #door: DoorSetting;
  readonly #peerAddress: string;
  readonly #localAddress: string;
  readonly #events: PassiveListenerEvents;
  #admitted: AdmittedCamera | null = null;
  #peer: TlsPeer | null = null;
  #isPrivate = false;
  #way: DataWay | null = null;
  #arrival: Arrival | null = null;
  #path = '';
  #uploadOver: () => void = () => {};
  #reception: Reception | null = null;
  #receivedBytes = 0;
  #cut: ((why: Interruption) => void) | null = null;

  constructor(door: DoorSetting, peerAddress: string, localAddress: string, events: PassiveListenerEvents) {
    this.#door = door;
    this.#peerAddress = peerAddress;
    this.#localAddress = localAddress;
    this.#events = events;
  }

  /** Of the running upload, until the folder has finished it. */
  get transferredBytes(): number {
    return this.#reception?.receivedBytes ?? this.#receivedBytes;
  }

  /** The control connection is under TLS from here on. `isPrivate`: data connections are to be so too. */
  secured(peer: TlsPeer, isPrivate: boolean): void {
    this.#peer = peer;
    this.#isPrivate = isPrivate;
  }

  interrupt(why: Interruption): void {
    this.#cut?.(why);
  }

  closeData(): void {
    this.#way?.close();
    this.#way = null;
  }

  /** After a fault of our own: nothing of this session stays open. */
  async abandon(): Promise<void> {
    this.interrupt('control-lost');
    this.closeData();
    await this.#reception?.ended;
    if (this.#arrival !== null) await this.#finish('control-lost');
  }

  async answer(question: Question): Promise<unknown> {
    try {
      return await this.#answer(question);
    } finally {
      this.#cut = null;
    }
  }

  #answer(question: Question): Promise<unknown> {
    switch (question.name) {
      case 'log-in':
        return this.#logIn(question.request);
      case 'pause':
        return this.#pause(question.request.sinceMs + question.request.ms - nowMs());
      case 'spend':
        return this.#pause(this.#door.budget.spend(this.#camera().name, nowMs()));
      case 'listen':
        return this.#listen();
      case 'aim':
        return this.#aim(question.request.port);
      case 'protect':
        this.#isPrivate = question.request.isPrivate;
        return Promise.resolve(null);
      case 'await-data':
        return this.#awaitData();
      case 'secure-data':
        return this.#secureData();
      case 'secure':
        throw new Error('the control connection secures itself');
      case 'open':
        return this.#open(question.request);
      case 'receive':
        return this.#receive();
      case 'finish':
        return this.#finish(question.request.end);
      case 'send':
        return this.#send(question.request.pieces);
      default:
        return askFolder(this.#camera().folder, question);
    }
  }

  async #logIn(credentials: { user: string; password: string }): Promise<LogInAnswer> {
    const { book, keeper } = this.#door;
    const address = this.#peerAddress;
    const { isHeard, failures } = book.attempt(address, nowMs());
    const admitted = isHeard
      ? await keeper.admit({ ...credentials, address, via: this.#peer === null ? 'ftp' : 'ftps' })
      : null;
    if (admitted === null || admitted === 'told') {
      return { camera: null, failures, isTold: admitted === 'told' };
    }
    book.welcome(address);
    this.#admitted = admitted;
    return { camera: admitted.name, failures: 0 };
  }

  #pause(ms: number): Promise<null> {
    if (ms <= 0) return Promise.resolve(null);
    return new Promise((resolve) => {
      const timer = setTimeout(() => resolve(null), ms);
      this.#cut = () => {
        clearTimeout(timer);
        resolve(null);
      };
    });
  }

  async #listen(): Promise<{ port: number } | null> {
    this.closeData();
    const { passive } = this.#door.options;
    const listener = await PassiveListener.open(passive, this.#localAddress, this.#peerAddress, {
      ...this.#events,
      connected: () => this.#connected(),
    });
    this.#way = listener === null ? null : this.#protected(listener);
    return listener === null ? null : { port: listener.port };
  }

  async #aim(port: number): Promise<null> {
    this.closeData();
    this.#way = this.#protected(
      new ActiveDial({ address: this.#peerAddress, port, localAddress: this.#localAddress }),
    );
    return null;
  }

  #protected(way: DataWay): DataWay {
    const { limits, tls } = this.#door.options;
    if (this.#peer === null || !this.#isPrivate) return way;
    const mustResume = tls?.resumption === 'required';
    return new SecuredWay(way, this.#peer, { handshakeMs: limits.handshakeMs, mustResume });
  }

  #connected(): void {
    if (this.#way instanceof SecuredWay) this.#way.begin();
    this.#events.connected();
  }

  async #secureData(): Promise<SecuredOutcome> {
    this.#cut = () => this.closeData();
    return this.#way instanceof SecuredWay ? this.#way.secured() : 'failed';
  }

  /** The connection stays with its way until a transfer takes it. */
  async #awaitData(): Promise<boolean> {
    this.#cut = () => this.closeData();
    return (await this.#way?.arrived()) ?? false;
  }

  async #open(request: OpenRequest): Promise<FolderAnswer<{ offsetBytes: number }>> {
    const opened = await this.#openOrMakeWay(request);
    if (!opened.ok) return opened;
    this.#arrival = opened.value;
    this.#path = request.path;
    return { ok: true, value: { offsetBytes: opened.value.offsetBytes } };
  }

  async #openOrMakeWay({ path, how }: OpenRequest): Promise<FolderAnswer<Arrival>> {
    const { folder, name } = this.#camera();
    const opened = await folderAnswer(folder.open(path, how));
    if (opened.ok || opened.code !== 'busy') return opened;
    const { uploads, options } = this.#door;
    const free = await uploads.makeWay(name, path, options.limits.giveWayMs);
    return free ? folderAnswer(folder.open(path, how)) : opened;
  }

  async #receive(): Promise<ReceptionEnd> {
    const socket = this.#way?.take() ?? null;
    if (socket === null || this.#arrival === null) return { end: 'reset', bytes: 0 };
    const { options, pool, uploads } = this.#door;
    const reception = new Reception(socket, this.#arrival, options.limits, pool);
    this.#uploadOver = uploads.begin(this.#camera().name, this.#path, reception);
    this.#reception = reception;
    this.#cut = (why) => reception.interrupt(arrivalEnds[why]);
    return reception.ended.finally(() => {
      this.#receivedBytes = reception.receivedBytes;
      this.#reception = null;
    });
  }

  async #finish(end: ArrivalEnd): Promise<ArrivalOutcome> {
    const arrival = this.#arrival;
    this.#arrival = null;
    const failed = { kind: 'failed', code: 'disk-failed', sizeBytes: 0 } as const;
    try {
      const outcome = (await arrival?.finish(end)) ?? failed;
      if (outcome.kind === 'kept' || outcome.kind === 'kept-damaged') {
        this.#door.budget.earn(this.#camera().name);
      }
      return outcome;
    } catch {
      return failed;
    } finally {
      this.#receivedBytes = 0;
      this.#uploadOver();
    }
  }

  async #send(pieces: Iterable<Uint8Array>): Promise<boolean> {
    const socket = this.#way?.take() ?? null;
    if (socket === null) return false;
    const emission = new Emission(socket, pieces, this.#door.options.limits);
    this.#cut = () => emission.interrupt();
    return emission.ended;
  }

  #camera(): AdmittedCamera {
    if (this.#admitted === null) throw new Error('the session asked for a folder before anybody logged in');
    return this.#admitted;
  }
}

interface OpenRequest {
  readonly path: string;
  readonly how: OpenHow;
}

const arrivalEnds: Readonly<Record<Interruption, ArrivalEnd>> = {
  aborted: 'aborted',
  'control-lost': 'control-lost',
  stopping: 'stopping',
  dismissed: 'dismissed',
  'no-connection': 'reset',
};
