import { EarlyRoom } from '../sftp/core/early-bytes.ts';
import { defaultSftpLimits, type SftpLimits } from '../sftp/core/limits.ts';
import { PacketReader } from '../sftp/core/packet-reader.ts';
import type { QuestionName, Questions } from '../sftp/core/questions.ts';
import { SftpSession } from '../sftp/core/session.ts';
import type { SessionEvent, Wish } from '../sftp/core/session-events.ts';
import { WireReader, WireWriter } from '../sftp/core/wire.ts';

/** What a session said to one request, as far as tests look at it. */
export interface Said {
  readonly type: 'version' | 'status' | 'handle' | 'names' | 'attributes' | 'extended';
  readonly id: number;
  /** Of a status: 0 is OK, see draft-ietf-secsh-filexfer-02 section 7. */
  readonly code: number | null;
  readonly words: string;
  readonly handle: number;
}

/** Answers to questions, by name; a question without one stays open until {@link SftpTalk.answer}. */
export type Replies = {
  [Name in QuestionName]?: (request: Questions[Name][0]) => Questions[Name][1] | undefined;
};

/** A folder that has nothing but its root, and takes everything. */
export const emptyFolder: Replies = {
  stat: ({ path }) => ({
    ok: true,
    value: path === '/' ? { name: '', kind: 'folder', sizeBytes: 0, modifiedMs: 0 } : null,
  }),
  open: ({ how: { at } }) => ({
    ok: true,
    value: { offsetBytes: typeof at === 'object' ? at.offsetBytes : 0 },
  }),
  finish: () => ({ kind: 'kept', wholeness: 'whole', sizeBytes: 5 }),
  sync: () => ({ ok: true, value: null }),
  'set-modified': () => ({ ok: true, value: null }),
};

/** Drives a session without a socket: requests in bytes, questions answered from a table. */
export class SftpTalk {
  readonly said: Said[] = [];
  readonly written: number[] = [];
  readonly asked: { readonly name: QuestionName; readonly request: unknown; readonly ask: number }[] = [];
  readonly codes: string[] = [];
  hungUp = false;
  readonly session: SftpSession;
  readonly #replies: Replies;
  readonly #reader: PacketReader;
  #ids = 0;

  constructor(replies: Replies = emptyFolder, limits: Partial<SftpLimits> = {}) {
    const all = { ...defaultSftpLimits, ...limits };
    this.#replies = replies;
    this.#reader = new PacketReader(all.packetBytesMax);
    this.session = new SftpSession(all, new EarlyRoom(all.earlyBytesMax));
  }

  greet(): this {
    this.bytes(new WireWriter(1).uint32(3).packet());
    return this;
  }

  /** Sends one request; gives its id. */
  send(type: number, fields: (writer: WireWriter) => WireWriter): number {
    this.#ids += 1;
    this.bytes(fields(new WireWriter(type).uint32(this.#ids)).packet());
    return this.#ids;
  }

  open(path: string, flags: number): number {
    return this.send(3, (writer) => writer.text(path).uint32(flags).uint32(0));
  }

  /** The handle that an OPEN or OPENDIR of this id was given. */
  handleOf(id: number): number {
    return this.saidTo(id)?.handle ?? -1;
  }

  write(handle: number, offsetBytes: number, bytes: Uint8Array): number {
    return this.send(6, (writer) => writer.string(uint32Bytes(handle)).uint64(offsetBytes).string(bytes));
  }

  close(handle: number): number {
    return this.send(4, (writer) => writer.string(uint32Bytes(handle)));
  }

  saidTo(id: number): Said | undefined {
    return this.said.find((said) => said.id === id && said.type !== 'version');
  }

  bytes(bytes: Uint8Array): void {
    this.#reader.push(bytes);
    for (let input = this.#reader.next(); input !== null; input = this.#reader.next()) {
      if (input.kind === 'bad-length') throw new Error(`bad length ${input.lengthBytes}`);
      this.event({ kind: 'packet', packet: input });
    }
  }

  answer(ask: number, answer: unknown): void {
    this.event({ kind: 'answer', ask, answer });
  }

  event(event: SessionEvent): void {
    for (const wish of this.session.handle(event, 0)) this.#carryOut(wish);
  }

  #carryOut(wish: Wish): void {
    switch (wish.kind) {
      case 'send':
        this.said.push(readSaid(wish.bytes));
        break;
      case 'write':
        for (const piece of wish.pieces) this.written.push(...piece);
        break;
      case 'report':
        this.codes.push(wish.finding.code);
        break;
      case 'hang-up':
        this.hungUp = true;
        break;
      case 'ask': {
        const { name, request } = wish.question;
        this.asked.push({ name, request, ask: wish.ask });
        // The table's row fits the question by its name.
        const reply = this.#replies[name] as ((request: unknown) => unknown) | undefined;
        const answer = reply?.(request);
        if (answer !== undefined) this.answer(wish.ask, answer);
      }
    }
  }
}

export function uint32Bytes(value: number): Uint8Array {
  const bytes = new Uint8Array(4);
  new DataView(bytes.buffer).setUint32(0, value);
  return bytes;
}

const types = new Map<number, Said['type']>([
  [2, 'version'],
  [101, 'status'],
  [102, 'handle'],
  [104, 'names'],
  [105, 'attributes'],
  [201, 'extended'],
]);

function readSaid(packet: Uint8Array): Said {
  const reader = new WireReader(packet.subarray(4));
  const type = types.get(reader.uint8());
  if (type === undefined) throw new Error('a session sent a packet of no kind it may send');
  const id = reader.uint32();
  if (type === 'handle') {
    reader.uint32();
    return { type, id, code: null, words: '', handle: reader.uint32() };
  }
  if (type !== 'status') return { type, id, code: null, words: '', handle: -1 };
  const code = reader.uint32();
  return { type, id, code, words: new TextDecoder().decode(reader.string()), handle: -1 };
}
