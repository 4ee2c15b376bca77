import { commands } from '../../../src/receive/ftp/core/commands/table.ts';
import { LineReader } from '../../../src/receive/ftp/core/line-reader.ts';
import type { QuestionName } from '../../../src/receive/ftp/core/questions.ts';
import { FtpSession } from '../../../src/receive/ftp/core/session.ts';
import type { SessionEvent, Wish } from '../../../src/receive/ftp/core/session-events.ts';
import { defaultFtpLimits } from '../../../src/receive/index.ts';
import { type FuzzTarget, insist } from '../target.ts';
import { act, actCount, answered, logIn, play, says, upload } from './session-scenes.ts';
import { answers, ends, outcomes } from './session-world.ts';

/**
 * The control line, without a socket: an input is a play of what the client says and what the world does. A byte
 * chooses the act, the next one says how.
 */
export const sessionTarget: FuzzTarget = {
  name: 'session',
  inputBytesMax: 4096,
  words: [
    ...Array.from({ length: 8 }, (_, how) => play([act.answer, how])),
    ...['PASV', 'EPSV', 'STOR x', 'APPE x', 'LIST', 'ABOR', 'STAT', 'QUIT', 'NOOP', 'REST 5'].map((line) =>
      play(says(line)),
    ),
    play([act.dataComes, 0]),
    play([act.ends, 0]),
    play([act.stops, 0]),
    play(upload(0, 0)),
  ],
  seeds: () => [
    play(says('USER a'), says('PASS c'), [act.answer, 3], says('NOOP'), [act.later, 20]),
    play(logIn, [act.bytes, 4, 255, 251, 1, 13], says('EPSV'), answered(1), says('ABOR'), [act.ends, 0]),
    play(logIn, says('RNFR x'), answered(1), says('RNTO y'), answered(2), says('REST 5'), says('APPE x')),
    ...ends.flatMap((_end, how) => outcomes.map((_outcome, then) => play(logIn, upload(how, then)))),
    ...[...commands.keys()].map((verb) =>
      play(logIn, says('PASV'), answered(1), [act.dataComes, 0], says(`${verb} x`), answered(6), says(verb)),
    ),
  ],
  run: (input) => new Play(input).run(),
};

const verbs = [...commands.keys()];
const args = [
  '',
  ' x',
  ' /',
  ' ..',
  ' 5',
  ' a b',
  ' 20261001080405 x',
  ' |1|192.0.2.9|2000|',
  ' 192,0,2,9,9,9',
  ' I',
  ' ALL',
];

/** Questions that touch the camera's folder or open a port: nobody may cause them before the log-in. */
const beforeLogIn: readonly QuestionName[] = ['log-in', 'pause', 'secure', 'protect'];
/** 226 also ends a listing, and answers ABOR where nothing runs: neither speaks of a file. */
const otherwiseDone = ['226 That was the list.', '226 Nothing is being transferred now.'];
const limits = { ...defaultFtpLimits, lineBytesMax: 64, lineSkipBytesMax: 128, waitingLinesMax: 4 };
/** No reply is longer than this here, where folders have two entries. */
const replyBytesMax = 16 * 1024;

class Play {
  readonly #input: Uint8Array;
  readonly #reader = new LineReader(limits);
  readonly #session = new FtpSession({
    limits,
    peerAddress: '192.0.2.9',
    localAddress: '192.0.2.1',
    tls: { start: 'explicit', clearText: 'allowed' },
  });
  #at = 0;
  #nowMs = 1_000_000;
  #open: QuestionName | null = null;
  #kept = 0;
  #said226 = 0;
  #lines = 0;
  #lastReplies = 0;
  #hungUp = false;

  constructor(input: Uint8Array) {
    this.#input = input;
  }

  run(): void {
    this.#feed({ kind: 'opened' });
    while (this.#at < this.#input.length) this.#act(this.#next() % actCount);
    // Whatever happened: once the client is gone and every question answered, the session is over.
    this.#feed({ kind: 'control-lost' });
    for (let answer = 0; this.#open !== null; answer += 1) {
      insist(answer < 100, 'a command goes on asking for ever');
      this.#answer(2);
    }
    insist(this.#session.isOver && this.#hungUp, 'the client is gone and the session goes on');
    insist(this.#session.alarmAtMs === null, 'a session that is over awaits an alarm');
  }

  #next(): number {
    const byte = this.#input[this.#at] ?? 0;
    this.#at += 1;
    return byte;
  }

  #act(kind: number): void {
    const how = this.#next();
    switch (kind) {
      case act.bytes:
        this.#say(this.#input.slice(this.#at, this.#at + how));
        this.#at += how;
        break;
      case act.line:
        this.#say(
          new TextEncoder().encode(`${verbs[how % verbs.length]}${args[this.#next() % args.length]}\r\n`),
        );
        break;
      case act.answer:
        if (this.#open !== null) this.#answer(how);
        break;
      case act.dataComes:
        this.#feed({ kind: 'data-connected' });
        break;
      case act.later:
        this.#nowMs += 2 ** (how % 24);
        this.#feed({ kind: 'alarm' });
        break;
      case act.ends:
        if (how % 8 === 0) this.#feed({ kind: 'control-ended' });
        break;
      case act.lost:
        if (how % 8 === 0) this.#feed({ kind: 'control-lost' });
        break;
      case act.stops:
        if (how % 8 === 0) this.#stop();
        break;
      default:
        this.#feed({ kind: 'foreign-data', address: '192.0.2.66' });
    }
  }

  #stop(): void {
    this.#feed({ kind: 'stopping' });
  }

  #say(bytes: Uint8Array): void {
    this.#reader.push(bytes);
    while (this.#session.wantsInput) {
      const input = this.#reader.next();
      if (input === null) break;
      if (input.kind !== 'telnet') this.#lines += 1;
      this.#feed({ kind: 'input', input, transferredBytes: 7 });
    }
  }

  #answer(how: number): void {
    const name = this.#open;
    if (name === null) return;
    this.#open = null;
    const answer = answers[name](how);
    if (name === 'finish' && how % outcomes.length < 2) this.#kept += 1;
    this.#feed({ kind: 'done', answer });
    // The reader may have held lines back while the session wanted no more.
    this.#say(new Uint8Array(0));
  }

  #feed(event: SessionEvent): void {
    for (const wish of this.#session.handle(event, this.#nowMs)) this.#take(wish);
  }

  #take(wish: Wish): void {
    insist(!this.#hungUp, `after hanging up the session still wants ${wish.kind}`);
    if (wish.kind === 'hang-up') this.#hungUp = true;
    if (wish.kind === 'send') this.#read(wish.bytes);
    if (wish.kind !== 'ask') return;
    const { name } = wish.question;
    insist(this.#open === null, `the session asks ${name} while ${this.#open} is open`);
    insist(this.#session.camera !== null || beforeLogIn.includes(name), `before the log-in it asks ${name}`);
    this.#open = name;
  }

  #read(bytes: Uint8Array): void {
    insist(bytes.length <= replyBytesMax, `a reply of ${bytes.length} bytes`);
    if (bytes[0] === 255 && bytes.length === 3) return;
    const text = Buffer.from(bytes).toString('latin1');
    insist(text.endsWith('\r\n'), 'a reply does not end its line');
    const lines = text.slice(0, -2).split('\r\n');
    const [first = ''] = lines;
    const code = first.slice(0, 3);
    insist(/^[1-5]\d\d[ -]/.test(first), `not a reply: ${JSON.stringify(first)}`);
    for (const line of lines) insist(!hasControl(line), `a control character in ${JSON.stringify(line)}`);
    for (const line of lines.slice(1, -1)) insist(line.startsWith(' '), 'an inner line reads as a code');
    if (lines.length > 1) insist(lines.at(-1)?.startsWith(`${code} `) === true, 'a long reply has no end');
    if (code === '226' && !otherwiseDone.includes(first)) this.#said226 += 1;
    insist(this.#said226 <= this.#kept, '226 was said of a file that was not kept');
    if (code.startsWith('1')) return;
    this.#lastReplies += 1;
    // The greeting, and a 421 that nobody asked for: the alarm's or the station's.
    insist(this.#lastReplies <= this.#lines + 2, `${this.#lastReplies} last replies to ${this.#lines} lines`);
  }
}

/** Of a line in latin1: what stands above 0x7F belongs to names in UTF-8. */
function hasControl(line: string): boolean {
  return [...line].some((character) => character < ' ' || character === '\u007f');
}
