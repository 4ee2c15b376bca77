import type { EpochMs } from '../../../base/index.ts';
import type { ArrivalEnd, FolderEntry } from '../../core/camera-folder.ts';
import { nameOf } from '../../core/path.ts';
import type { EarlyRoom } from './early-bytes.ts';
import { answerFile, answerListing } from './file-requests.ts';
import { finish } from './finish.ts';
import { Lane } from './lane.ts';
import type { SftpLimits } from './limits.ts';
import type { OpenFile } from './open-file.ts';
import type { Packet } from './packet-reader.ts';
import { answerPath } from './path-requests.ts';
import type { Asking } from './questions.ts';
import { type HandleRequest, type PathRequest, parseRequest, type Request } from './request.ts';
import { encodeResponse, encodeVersion, type Response } from './response.ts';
import type { SessionEvent, Wish } from './session-events.ts';
import { badMessage, unknownHandle, unknownRequest } from './status.ts';
import type { OpenListing, Turn } from './turn.ts';

/**
 * One client's SFTP session as a pure machine: packets in, wishes out.
 *
 * Requests that name paths run one after another; those that name a handle run one after another per handle, so that
 * the CLOSE of one file, which waits for the disk, holds up no other. Answers may overtake each other, as section 6.1
 * of the draft allows; a client waits for what it needs.
 */
export class SftpSession {
  readonly #limits: SftpLimits;
  readonly #turn: Turn;
  readonly #paths = new Lane();
  readonly #files = new Map<number, { readonly file: OpenFile; readonly lane: Lane }>();
  readonly #listings = new Map<number, OpenListing>();
  readonly #asked = new Map<number, Lane>();
  #wishes: Wish[] = [];
  #nowMs: EpochMs = 0;
  #asks = 0;
  #handles = 0;
  #greeted = false;
  #ended: ArrivalEnd | null = null;

  constructor(limits: SftpLimits, earlyRoom: EarlyRoom) {
    this.#limits = limits;
    this.#turn = this.#makeTurn(limits, earlyRoom);
  }

  /** Whether another packet would be worked on now; else it had better wait where it is. */
  get wantsInput(): boolean {
    if (this.#ended !== null) return false;
    let waiting = this.#paths.length;
    for (const { lane } of this.#files.values()) {
      if (lane.length >= this.#limits.requestsPerHandleMax) return false;
      waiting += lane.length;
    }
    return waiting < this.#limits.requestsMax;
  }

  /** Whether the session has ended and nothing of it is under way any more. */
  get isOver(): boolean {
    return this.#ended !== null && this.#files.size === 0 && this.#asked.size === 0;
  }

  handle(event: SessionEvent, nowMs: EpochMs): Wish[] {
    this.#nowMs = nowMs;
    switch (event.kind) {
      case 'packet':
        this.#hear(event.packet);
        break;
      case 'answer':
        this.#resume(event.ask, event.answer);
        break;
      case 'write-failed':
        this.#files.get(event.handle)?.file.spoil(event.code);
        break;
      case 'given-way':
        this.#abandon(event.handle, event.end);
        break;
      case 'ended':
        this.#end(event.end);
        break;
    }
    const wishes = this.#wishes;
    this.#wishes = [];
    return wishes;
  }

  #hear(packet: Packet): void {
    if (this.#ended !== null) return;
    const request = parseRequest(packet);
    if (
      (request.type === 'init') === this.#greeted ||
      (request.type === 'malformed' && request.id === null)
    ) {
      this.#wishes.push({ kind: 'hang-up' });
    } else if (request.type === 'init') {
      this.#greeted = true;
      this.#wishes.push({ kind: 'send', bytes: encodeVersion() });
    } else {
      this.#answer(request);
    }
  }

  #answer(request: Exclude<Request, { type: 'init' }>): void {
    switch (request.type) {
      case 'malformed':
        this.#send(request.id ?? 0, badMessage);
        break;
      case 'unknown':
        this.#send(request.id, unknownRequest);
        break;
      case 'limits':
        this.#send(request.id, { kind: 'limits', limits: this.#limits });
        break;
      case 'close':
      case 'read':
      case 'write':
      case 'sync':
      case 'handle-stat':
      case 'set-handle-stat':
      case 'next-names':
        this.#answerHandle(request.id, request);
        break;
      default:
        this.#run(this.#paths, this.#reply(request.id, request, answerPath(this.#turn, request)));
    }
  }

  #answerHandle(id: number, request: HandleRequest): void {
    const listing = this.#listings.get(request.handle);
    const open = this.#files.get(request.handle);
    if (listing !== undefined) this.#send(id, answerListing(this.#turn, listing, request));
    else if (open === undefined || !open.file.isNamed || open.lane.isClosed) this.#send(id, unknownHandle);
    else {
      const { file, lane } = open;
      this.#run(lane, this.#reply(id, request, answerFile(this.#turn, file, request)));
      // Nothing is heard of a handle after its CLOSE, also while that is waiting for the disk.
      if (request.type === 'close') lane.close();
    }
  }

  *#reply(id: number, request: PathRequest | HandleRequest, asking: Asking<Response>): Asking<void> {
    const response = yield* asking;
    this.#send(id, response);
    if (response.kind === 'status' && response.why !== null && 'path' in request) {
      this.#reportRefused(request, response.code, response.why);
    }
  }

  /** A client that looks whether something is there asks for what is not: that is no refusal. */
  #reportRefused({ type, path }: PathRequest, reply: number, why: string): void {
    if (type === 'stat' || type === 'list') return;
    this.#turn.report({
      code: 'line.refused-command',
      args: { verb: `${verbs[type]} ${nameOf(path)}`, why, reply },
    });
  }

  #run(lane: Lane, asking: Asking<void>): void {
    lane.add(asking);
    this.#advance(lane, undefined);
  }

  #resume(ask: number, answer: unknown): void {
    const lane = this.#asked.get(ask);
    if (lane === undefined) return;
    this.#asked.delete(ask);
    lane.answered();
    this.#advance(lane, answer);
  }

  #advance(lane: Lane, answer: unknown): void {
    const question = lane.advance(answer);
    if (question === null) return;
    this.#asks += 1;
    this.#asked.set(this.#asks, lane);
    this.#wishes.push({ kind: 'ask', ask: this.#asks, question });
  }

  /** What waits is dropped; what runs comes to its end; each file that was not being closed is ended. */
  #end(end: ArrivalEnd): void {
    if (this.#ended !== null) return;
    this.#ended = end;
    this.#listings.clear();
    this.#paths.drop();
    for (const handle of [...this.#files.keys()]) this.#abandon(handle, end);
  }

  #abandon(handle: number, end: ArrivalEnd): void {
    const open = this.#files.get(handle);
    if (open === undefined || open.lane.isClosed) return;
    const { file, lane } = open;
    lane.drop();
    lane.close();
    file.left = end;
    this.#run(lane, this.#leave(file, end));
  }

  *#leave(file: OpenFile, end: ArrivalEnd): Asking<void> {
    if (file.state === 'open') yield* finish(this.#turn, file, end);
    // What is being opened is finished by whoever opens it.
    else if (file.state !== 'opening') this.#turn.remove(file.handle);
  }

  #send(id: number, response: Response): void {
    if (this.#ended !== null) return;
    this.#wishes.push({ kind: 'send', bytes: encodeResponse(id, response, this.#nowMs) });
  }

  #makeTurn(limits: SftpLimits, earlyRoom: EarlyRoom): Turn {
    return {
      limits,
      earlyRoom,
      handlesLeft: () => limits.handlesMax - this.#files.size - this.#listings.size,
      ended: () => this.#ended,
      addFile: (make) => {
        const file = make(this.#nextHandle());
        this.#files.set(file.handle, { file, lane: new Lane() });
        return file;
      },
      addListing: (entries) => this.#addListing(entries),
      remove: (handle) => {
        this.#files.delete(handle);
        this.#listings.delete(handle);
      },
      write: ({ handle }, pieces) => this.#wishes.push({ kind: 'write', handle, pieces }),
      report: (finding) => this.#wishes.push({ kind: 'report', finding }),
    };
  }

  #addListing(entries: readonly FolderEntry[]): number {
    const handle = this.#nextHandle();
    if (this.#ended === null) this.#listings.set(handle, { kind: 'listing', entries, sent: 0 });
    return handle;
  }

  #nextHandle(): number {
    this.#handles += 1;
    return this.#handles;
  }
}

/** The names of requests as the draft spells them, for the camera's log. */
const verbs: Readonly<Record<Exclude<PathRequest['type'], 'stat' | 'list'>, string>> = {
  open: 'OPEN',
  remove: 'REMOVE',
  'remove-folder': 'RMDIR',
  'real-path': 'REALPATH',
  'make-folder': 'MKDIR',
  'set-stat': 'SETSTAT',
  rename: 'RENAME',
  link: 'SYMLINK',
};
