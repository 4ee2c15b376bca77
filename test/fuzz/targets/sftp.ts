import type { ArrivalEnd } from '../../../src/receive/core/camera-folder.ts';
import { defaultSftpLimits } from '../../../src/receive/index.ts';
import { EarlyRoom } from '../../../src/receive/sftp/core/early-bytes.ts';
import { PacketReader } from '../../../src/receive/sftp/core/packet-reader.ts';
import type { QuestionName } from '../../../src/receive/sftp/core/questions.ts';
import { SftpSession } from '../../../src/receive/sftp/core/session.ts';
import type { SessionEvent, Wish } from '../../../src/receive/sftp/core/session-events.ts';
import { WireWriter } from '../../../src/receive/sftp/core/wire.ts';
import { type FuzzTarget, insist } from '../target.ts';
import { answers as folderAnswers, outcomes } from './session-world.ts';

/** OPEN of `/x` to write it anew: there is no such file, its folder is one, and it is opened. */
const openedX = [1, 3, 1, 0, 0, 2, 3, 2, 1, 2, 0];

/** The SFTP session without a channel: an input is a play of packets, some as they should be, and of what happens. */
export const sftpTarget: FuzzTarget = {
  name: 'sftp',
  inputBytesMax: 4096,
  words: [
    Uint8Array.of(1, 3, 0, 2, 0),
    Uint8Array.of(1, 6, 1, 3, 5),
    Uint8Array.of(1, 4, 1, 0, 0),
    Uint8Array.from(openedX),
    Uint8Array.of(2, 0),
  ],
  seeds: () =>
    [
      // An upload of a file that is not there into a folder that is, with every way it can end.
      ...outcomes.map((_, end) => [...openedX, 1, 6, 1, 0, 5, 1, 4, 1, 0, 0, 2, end]),
      // Two files at once, one of them given way; and one that is there already and goes on.
      [...openedX, ...openedX, 1, 6, 1, 0, 5, 5, 1, 1, 1, 6, 2, 0, 5, 1, 4, 2, 0, 0, 2, 0, 2, 0],
      [1, 3, 1, 1, 0, 2, 0, 1, 6, 1, 0, 5, 2, 0, 1, 4, 1, 0, 0, 2, 0],
      [1, 11, 0, 0, 0, 2, 0, 2, 0, 1, 12, 0, 0, 0, 1, 12, 0, 0, 0, 1, 4, 0, 0, 0],
      ...[3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 200].map((type) => [
        1,
        type,
        0,
        0,
        0,
        2,
        0,
        2,
        0,
      ]),
      [0, 9, 0, 0, 0, 5, 1, 0, 0, 0, 3],
    ].map((bytes) => Uint8Array.from(bytes)),
  run: (input) => new Play(input).run(),
};

const actCount = 6;
const paths = ['/', '/x', '/d/y', '..', 'a\\b', '/é', '', '\u0001', `/${'n'.repeat(256)}`];
const flagSets = [0x1a, 0x0a, 0x0e, 0x02, 0x01, 0x2a, 0];
const ends: readonly ArrivalEnd[] = ['control-lost', 'stalled', 'stopping'];
const limits = {
  ...defaultSftpLimits,
  packetBytesMax: 512,
  handlesMax: 3,
  requestsMax: 8,
  earlyBytesMax: 64,
};
/** Answers are short here, where folders have two entries. */
const answerBytesMax = 4096;

class Play {
  readonly #input: Uint8Array;
  readonly #reader = new PacketReader(limits.packetBytesMax);
  readonly #session = new SftpSession(limits, new EarlyRoom(limits.earlyBytesMax));
  readonly #open: { readonly ask: number; readonly name: QuestionName; readonly handle: number }[] = [];
  /** Handles by the ids of the requests that name them. */
  readonly #closes = new Map<number, number>();
  readonly #writes = new Map<number, number>();
  readonly #files = new Set<number>();
  readonly #written = new Set<number>();
  readonly #opens = new Set<number>();
  /** Handles of files that the folder opened and was not asked to finish. */
  readonly #unfinished = new Set<number>();
  #at = 0;
  #ids = 0;
  #packets = 0;
  #sent = 0;
  #kept = 0;
  #closedWell = 0;
  #ended = false;

  constructor(input: Uint8Array) {
    this.#input = input;
  }

  run(): void {
    this.#say(new WireWriter(1).uint32(3).packet());
    while (this.#at < this.#input.length) this.#act(this.#next() % actCount);
    this.#end('control-lost');
    for (let answer = 0; this.#open.length > 0; answer += 1) {
      insist(answer < 200, 'requests go on asking for ever');
      this.#answer(0, 2);
    }
    insist(this.#session.isOver, 'the client is gone and the session goes on');
    insist(this.#unfinished.size === 0, 'a file that was opened was never finished');
  }

  #next(): number {
    const byte = this.#input[this.#at] ?? 0;
    this.#at += 1;
    return byte;
  }

  #act(kind: number): void {
    if (kind === 0) {
      const length = this.#next();
      this.#say(this.#input.slice(this.#at, this.#at + length));
      this.#at += length;
    } else if (kind === 1) this.#request(this.#next(), this.#next(), this.#next(), this.#next());
    else if (kind === 2) this.#answer(0, this.#next());
    else if (kind === 3) this.#answer(this.#next(), this.#next());
    else if (kind === 4) this.#feed({ kind: 'write-failed', handle: this.#next() % 4, code: 'disk-full' });
    else if (this.#next() % 8 === 0) this.#end(ends[this.#next() % ends.length]);
    else this.#feed({ kind: 'given-way', handle: this.#next() % 4, end: 'stalled' });
  }

  /** A packet in its right form: type, a path or a handle, and two figures. */
  #request(type: number, which: number, one: number, two: number): void {
    this.#ids += 1;
    const id = this.#ids;
    const writer = new WireWriter(type).uint32(id);
    const handle = Uint8Array.of(0, 0, 0, which % 5);
    const path = paths[which % paths.length];
    if ([4, 5, 6, 8, 10, 12].includes(type)) writer.string(handle);
    else if (type === 200) writer.text('fsync@openssh.com').string(handle);
    else writer.text(path);
    if (type === 3) writer.uint32(flagSets[one % flagSets.length]).uint32(0);
    if (type === 6)
      writer
        .uint32(0)
        .uint32(one)
        .string(new Uint8Array(two % 64));
    if (type === 18) writer.text(paths[one % paths.length]);
    if (type === 9 || type === 10) writer.uint32(8).uint32(one).uint32(two);
    if (type === 3) this.#opens.add(id);
    if (type === 6 && two % 64 > 0 && this.#files.has(which % 5)) this.#writes.set(id, which % 5);
    if (type === 4) this.#closes.set(id, which % 5);
    this.#say(writer.packet());
  }

  #say(bytes: Uint8Array): void {
    this.#reader.push(bytes);
    while (this.#session.wantsInput && !this.#ended) {
      const packet = this.#reader.next();
      if (packet === null) return;
      if (packet.kind === 'bad-length') {
        this.#end('control-lost');
        return;
      }
      this.#packets += 1;
      this.#feed({ kind: 'packet', packet });
    }
  }

  #answer(which: number, how: number): void {
    const [asked] = this.#open.splice(which % Math.max(1, this.#open.length), 1);
    if (asked === undefined) return;
    if (asked.name === 'finish' && how % outcomes.length < 2) this.#kept += 1;
    const answer = asked.name === 'sync' ? folderAnswers.hide(how) : folderAnswers[asked.name](how);
    if (asked.name === 'open' && isOk(answer)) this.#unfinished.add(asked.handle);
    this.#feed({ kind: 'answer', ask: asked.ask, answer });
    this.#say(new Uint8Array(0));
  }

  #end(end: ArrivalEnd): void {
    this.#ended = true;
    this.#feed({ kind: 'ended', end });
  }

  #feed(event: SessionEvent): void {
    for (const wish of this.#session.handle(event, 1_000_000)) {
      if (wish.kind === 'ask') this.#hearQuestion(wish);
      else if (wish.kind === 'send') this.#read(wish.bytes);
      else if (wish.kind === 'hang-up') this.#ended = true;
    }
    insist(
      this.#open.length <= limits.requestsMax + limits.handlesMax,
      'more questions than requests may run',
    );
  }

  /**
   * A request whose length before it was wrong is part of another packet: only the answer tells that it was one. A file
   * that is opened to go on and closed without a byte is left as it was: nothing need be kept.
   */
  #hearOk(id: number): void {
    const written = this.#writes.get(id);
    if (written !== undefined) this.#written.add(written);
    const closed = this.#closes.get(id);
    if (closed !== undefined && this.#written.has(closed)) this.#closedWell += 1;
  }

  #hearQuestion({ ask, question }: Extract<Wish, { kind: 'ask' }>): void {
    const handle = 'handle' in question.request ? question.request.handle : 0;
    if (question.name === 'finish') this.#unfinished.delete(handle);
    this.#open.push({ ask, name: question.name, handle });
  }

  #read(bytes: Uint8Array): void {
    this.#sent += 1;
    insist(this.#sent <= this.#packets, 'more answers than packets');
    insist(bytes.length <= answerBytesMax, `an answer of ${bytes.length} bytes`);
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
    insist(view.getUint32(0) === bytes.length - 4, 'an answer has not the length it says');
    const [type, id] = [bytes[4], view.getUint32(5)];
    if (type === 102 && this.#opens.has(id)) this.#files.add(view.getUint32(13));
    if (type === 101 && view.getUint32(9) === 0) this.#hearOk(id);
    insist(this.#closedWell <= this.#kept, 'a CLOSE was answered OK and its file was not kept');
  }
}

function isOk(answer: unknown): boolean {
  return typeof answer === 'object' && answer !== null && 'ok' in answer && answer.ok === true;
}
