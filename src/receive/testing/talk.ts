import type { FolderEntry } from '../core/camera-folder.ts';
import { defaultFtpLimits, type FtpLimits } from '../ftp/core/limits.ts';
import { LineReader } from '../ftp/core/line-reader.ts';
import type { Question, QuestionName } from '../ftp/core/questions.ts';
import { FtpSession } from '../ftp/core/session.ts';
import type { SessionEvent, Wish } from '../ftp/core/session-events.ts';
import type { TlsPolicy } from '../ftp/core/tls-policy.ts';

/** Answers a test gives in advance; a question without one stays open until {@link Talk.answer}. */
export type Script = { readonly [Name in QuestionName]?: ((question: Question) => unknown) | undefined };

const entry = (kind: FolderEntry['kind'], name: string): FolderEntry => ({
  name,
  kind,
  sizeBytes: kind === 'file' ? 5 : 0,
  modifiedMs: 0,
});

/** A folder with a file `/f` and a folder `/d`; everybody may log in; data connections come when the test says so. */
export const easyScript: Script = {
  'log-in': () => ({ camera: 'Camera A', failures: 0 }),
  pause: () => null,
  spend: () => null,
  listen: () => ({ port: 50_001 }),
  protect: () => null,
  stat: ({ request }) => {
    const path = 'path' in request ? request.path : '';
    if (path === '/' || path === '/d') return { ok: true, value: entry('folder', path.slice(1)) };
    return { ok: true, value: path === '/f' ? entry('file', 'f') : null };
  },
  list: () => ({ ok: true, value: [entry('folder', 'd'), entry('file', 'f')] }),
  'make-folder': () => ({ ok: true, value: null }),
  'remove-folder': () => ({ ok: true, value: null }),
  rename: () => ({ ok: true, value: null }),
  hide: () => ({ ok: true, value: null }),
  'set-modified': () => ({ ok: true, value: null }),
  open: () => ({ ok: true, value: { offsetBytes: 0 } }),
  finish: () => ({ kind: 'kept', wholeness: 'whole', sizeBytes: 5 }),
};

/** A session under test: lines and events in, everything it wished collected. No socket, no clock. */
export class Talk {
  readonly session: FtpSession;
  readonly wishes: Wish[] = [];
  nowMs = 1_000_000;
  readonly #reader: LineReader;
  readonly #script: Script;
  #open: Question[] = [];

  constructor(
    script: Script = easyScript,
    limits: Partial<FtpLimits> = {},
    localAddress = '192.0.2.1',
    tls: TlsPolicy | null = null,
  ) {
    const all = { ...defaultFtpLimits, ...limits };
    this.#script = script;
    this.#reader = new LineReader(all);
    this.session = new FtpSession({ limits: all, peerAddress: '192.0.2.9', localAddress, tls });
    this.feed({ kind: 'opened' });
  }

  static loggedIn(script: Script = easyScript, limits: Partial<FtpLimits> = {}): Talk {
    const talk = new Talk(script, limits);
    talk.say('USER a', 'PASS b');
    talk.wishes.length = 0;
    return talk;
  }

  feed(event: SessionEvent): void {
    for (const wish of this.session.handle(event, this.nowMs)) {
      this.wishes.push(wish);
      if (wish.kind === 'ask') this.#open.push(wish.question);
    }
    const question = this.#open.at(-1);
    const answer = question === undefined ? undefined : this.#script[question.name];
    if (question !== undefined && answer !== undefined) this.answer(answer(question));
  }

  say(...lines: readonly string[]): void {
    for (const line of lines) this.sendBytes(new TextEncoder().encode(`${line}\r\n`));
  }

  sendBytes(bytes: Uint8Array): void {
    this.#reader.push(bytes);
    for (let input = this.#reader.next(); input !== null; input = this.#reader.next()) {
      this.feed({ kind: 'input', input, transferredBytes: 7 });
    }
  }

  /** Answers the open question. */
  answer(answer: unknown): void {
    this.#open = [];
    this.feed({ kind: 'done', answer });
  }

  /** The question that waits for its answer. */
  get question(): QuestionName | null {
    return this.#open.at(-1)?.name ?? null;
  }

  later(ms: number): void {
    this.nowMs += ms;
    this.feed({ kind: 'alarm' });
  }

  /** Every byte said so far, as text. */
  get said(): string {
    return this.wishes
      .map((wish) => (wish.kind === 'send' ? String.fromCharCode(...wish.bytes) : ''))
      .join('');
  }

  /** The codes of the replies so far, the last line of each. */
  get codes(): number[] {
    return [...this.said.matchAll(/^(\d{3}) .*\r$/gm)].map((match) => Number(match[1]));
  }

  count(kind: Wish['kind']): number {
    return this.wishes.filter((wish) => wish.kind === kind).length;
  }

  get reports(): string[] {
    return this.wishes
      .map((wish) => (wish.kind === 'report' ? wish.finding.code : ''))
      .filter((code) => code !== '');
  }
}
