import { type EpochMs, exhaustive } from '../../../base/index.ts';
import type { Command, Interruption, Turn } from './command.ts';
import { statusReply } from './commands/stat.ts';
import { commands } from './commands/table.ts';
import type { ControlInput } from './line-reader.ts';
import { interruptible, keeping, transferring, transferText } from './question-kinds.ts';
import type { Asking, QuestionName } from './questions.ts';
import { formatReply, type Reply, reply } from './reply.ts';
import type { SessionEvent, Wish } from './session-events.ts';
import { freshState, type SessionSetting, type SessionState } from './session-state.ts';
import { splitLine, WaitingLines } from './waiting-lines.ts';

const loginFirst = reply(530, 'Log in first: USER, then PASS.');

interface Running {
  readonly work: Asking<Reply | null>;
  question: QuestionName | null;
  questionSinceMs: EpochMs;
}

/**
 * One FTP session without its sockets: events in, wishes out, no clock of its own.
 *
 * One command runs at a time and replies keep the order of the commands (RFC 959 section 5.4). While one runs, lines
 * wait; two are heard at once, as section 4.1.3 has it: ABOR interrupts the transfer (and then waits its turn for its
 * own reply), STAT is answered, also while what came is being made durable. A client that breaks off leaves the running command to come to its end, unheard.
 *
 * ```
 *            opened          PASS             line               last reply
 * (nothing) ───────▶ greeted ─────▶ logged in ─────▶ command runs ──────────▶ logged in
 *                       │               │  QUIT, alarm, control ended, stopping    │
 *                       └───────────────┴──────────────────▶ over ◀───────────────┘
 * ```
 */
export class FtpSession {
  readonly #setting: SessionSetting;
  readonly #state: SessionState;
  readonly #waiting = new WaitingLines();
  #running: Running | null = null;
  #interruption: Interruption | null = null;
  #wishes: Wish[] = [];
  #nowMs: EpochMs = 0;
  #openedMs: EpochMs = 0;
  #activeMs: EpochMs = 0;
  #inputEnded = false;
  #leaving: 'stopping' | 'dismissed' | null = null;
  #hangUpAsked = false;
  /** Nobody hears us any more: the control connection is gone or given up. */
  #muted = false;
  #over = false;

  constructor(setting: SessionSetting) {
    this.#setting = setting;
    this.#state = freshState(setting);
  }

  /** Takes one event and says what is to be done, in order. */
  handle(event: SessionEvent, nowMs: EpochMs): readonly Wish[] {
    this.#nowMs = nowMs;
    this.#wishes = [];
    if (!this.#over) {
      this.#take(event);
      this.#goOn();
    }
    return this.#wishes;
  }

  /** When the shell should send `alarm`; null while nothing is awaited. */
  get alarmAtMs(): EpochMs | null {
    const { limits } = this.#setting;
    if (this.#over || this.#muted) return null;
    if (this.#running?.question === 'await-data') return this.#running.questionSinceMs + limits.dataConnectMs;
    if (this.#state.camera === null) return this.#openedMs + limits.loginMs;
    return this.#running === null ? this.#activeMs + limits.idleMs : null;
  }

  /** Whether further input may be fed; while false the shell leaves it in the socket. */
  get wantsInput(): boolean {
    return !this.#over && !this.#muted && this.#waiting.count < this.#setting.limits.waitingLinesMax;
  }

  get camera(): string | null {
    return this.#state.camera;
  }

  get isOver(): boolean {
    return this.#over;
  }

  #take(event: SessionEvent): void {
    switch (event.kind) {
      case 'opened':
        this.#open();
        break;
      case 'input':
        this.#hear(event.input, event.transferredBytes);
        break;
      case 'done':
        this.#resume(event.answer);
        break;
      case 'data-connected':
        if (this.#state.dataWay === 'listening') this.#state.dataWay = 'connected';
        break;
      case 'foreign-data':
        this.#report('note', 'line.foreign-data-connection', { address: event.address });
        break;
      case 'alarm':
        this.#ring();
        break;
      case 'control-ended':
        this.#endInput();
        break;
      case 'control-lost':
        this.#lose();
        break;
      case 'stopping':
      case 'dismissed':
        this.#leaving ??= event.kind;
        this.#interrupt(event.kind);
        break;
      default:
        exhaustive(event);
    }
  }

  #open(): void {
    this.#openedMs = this.#nowMs;
    this.#activeMs = this.#nowMs;
    const { peerAddress: address, localAddress: local } = this.#state;
    this.#report('connected', 'line.connected', { address, local });
    this.#say(reply(220, 'Ready for your frames.'));
  }

  #hear(input: ControlInput, transferredBytes: number): void {
    if (this.#muted) return;
    if (input.kind === 'telnet') {
      this.#wishes.push({ kind: 'send', bytes: input.bytes });
      return;
    }
    const { verb, argument } = input.kind === 'line' ? splitLine(input.bytes) : { verb: '', argument: null };
    const question = this.#running?.question ?? null;
    if (verb === 'ABOR') this.#interruptTransfer('aborted');
    if (
      verb === 'STAT' &&
      argument === null &&
      (transferring.includes(question) || keeping.includes(question))
    ) {
      this.#say(statusReply(this.#state, transferText(question, transferredBytes)));
      return;
    }
    this.#waiting.add(input);
  }

  #ring(): void {
    const alarmAtMs = this.alarmAtMs;
    if (alarmAtMs === null || this.#nowMs < alarmAtMs) return;
    if (this.#running?.question === 'await-data') this.#interrupt('no-connection');
    else this.#sayTooSlow();
  }

  #sayTooSlow(): void {
    const text = this.#state.camera === null ? 'The log-in took too long.' : 'Nothing was said for too long.';
    this.#report('note', 'line.idle', { address: this.#state.peerAddress });
    this.#say(reply(421, `${text} Goodbye.`));
    this.#giveUp();
  }

  /**
   * A client may say QUIT and close without waiting for the answer; what it sent before still counts. Without QUIT
   * the control connection must outlive the transfer (RFC 959 section 3.2): closing it breaks the transfer off.
   */
  #endInput(): void {
    this.#inputEnded = true;
    if (!this.#waiting.has('QUIT')) this.#interruptTransfer('control-lost');
  }

  #lose(): void {
    this.#giveUp();
    this.#interrupt('control-lost');
  }

  /** Says nothing any more; what runs comes to its end. */
  #giveUp(): void {
    this.#muted = true;
    this.#waiting.forget();
  }

  #interrupt(why: Interruption): void {
    if (this.#running === null || this.#interruption !== null) return;
    this.#interruption = why;
    if (interruptible.includes(this.#running.question)) this.#wishes.push({ kind: 'interrupt', why });
  }

  #interruptTransfer(why: Interruption): void {
    if (transferring.includes(this.#running?.question ?? null)) this.#interrupt(why);
  }

  /** Begins what waits, and ends the session once there is nothing left to do. */
  #goOn(): void {
    while (this.#running === null && !this.#muted && !this.#hangUpAsked && this.#leaving === null) {
      const input = this.#waiting.next();
      if (input === undefined) break;
      this.#begin(input);
    }
    if (this.#running !== null || this.#over) return;
    if (this.#leaving !== null && !this.#hangUpAsked) this.#say(reply(421, leavingTexts[this.#leaving]));
    if (this.#muted || this.#hangUpAsked || this.#leaving !== null || this.#inputEnded) this.#end();
  }

  #end(): void {
    this.#over = true;
    this.#wishes.push({ kind: 'close-data' });
    this.#reportMissedFolder();
    this.#reportMissedData();
    this.#report('disconnected', 'line.disconnected', { address: this.#state.peerAddress });
    this.#wishes.push({ kind: 'hang-up' });
  }

  /** A client that looks for a folder and then makes it is in no trouble; one that leaves without a file is. */
  #reportMissedFolder(): void {
    const missed = this.#state.missedFolder;
    if (missed !== null)
      this.#report('note', 'line.refused-command', { verb: 'CWD', ...missed, reply: '550' });
  }

  /** Many clients dial the data port before they say what for, and leave without a word where nobody answers. */
  #reportMissedData(): void {
    const { camera, dataWay, peerAddress } = this.#state;
    if (camera === null || dataWay !== 'listening' || this.#leaving !== null) return;
    this.#report('note', 'line.no-data-connection', { address: peerAddress });
  }

  #begin(input: ControlInput): void {
    this.#activeMs = this.#nowMs;
    if (input.kind === 'line') {
      this.#beginLine(input.bytes);
    } else if (input.kind === 'too-long') {
      this.#say(reply(500, 'That line is too long.'));
    } else {
      this.#say(reply(421, 'That line does not end. Goodbye.'));
      this.#hangUpAsked = true;
    }
  }

  #beginLine(line: Uint8Array): void {
    const { verb, argument } = splitLine(line);
    const command = commands.get(verb);
    const carry = this.#state.carry;
    // A restart point outlives the commands that set up a transfer; a rename must be finished directly.
    if (command?.keepsCarry !== true || carry?.kind === 'rename') this.#state.carry = null;
    if (command === undefined) this.#say(reply(500, 'That command is not known.'));
    else if (command.needs === 'login' && this.#state.camera === null) this.#say(loginFirst);
    else this.#run(command, argument, carry);
  }

  #run(command: Command, argument: string | null, carry: SessionState['carry']): void {
    const turn = this.#turnWith(carry);
    this.#interruption = null;
    this.#running = { work: command.run(turn, argument), question: null, questionSinceMs: this.#nowMs };
    this.#resume(undefined);
  }

  #resume(answer: unknown): void {
    const running = this.#running;
    if (running === null) return;
    const step = running.work.next(answer);
    if (step.done === true) {
      this.#running = null;
      this.#activeMs = this.#nowMs;
      if (step.value !== null) this.#say(step.value);
      return;
    }
    running.question = step.value.name;
    running.questionSinceMs = this.#nowMs;
    this.#wishes.push({ kind: 'ask', question: step.value });
    this.#interruptLate(running);
  }

  /**
   * What came while the command could not be cut takes effect at its next long question: without this an ABOR sent
   * right behind STOR would wait for the very transfer it is to end.
   */
  #interruptLate(running: Running): void {
    if (!interruptible.includes(running.question)) return;
    if (this.#interruption !== null) this.#wishes.push({ kind: 'interrupt', why: this.#interruption });
    else if (this.#waiting.has('ABOR')) this.#interruptTransfer('aborted');
    else if (this.#inputEnded && !this.#waiting.has('QUIT')) this.#interruptTransfer('control-lost');
  }

  #turnWith(carry: SessionState['carry']): Turn {
    return {
      state: this.#state,
      carry,
      limits: this.#setting.limits,
      tls: this.#setting.tls,
      nowMs: this.#nowMs,
      say: (said) => this.#say(said),
      report: (change, finding) => this.#wishes.push({ kind: 'report', change, finding }),
      closeData: () => this.#wishes.push({ kind: 'close-data' }),
      hangUp: () => {
        this.#hangUpAsked = true;
      },
      forgetInput: () => {
        this.#waiting.forget();
      },
      interruption: () => this.#interruption,
    };
  }

  #say(said: Reply): void {
    if (!this.#muted) this.#wishes.push({ kind: 'send', bytes: formatReply(said) });
  }

  #report(change: 'connected' | 'disconnected' | 'note', code: string, args: Record<string, string>): void {
    this.#wishes.push({ kind: 'report', change, finding: { code, args } });
  }
}

const leavingTexts = {
  stopping: 'The station is stopping. Goodbye.',
  dismissed: 'This camera may not stay. Goodbye.',
} as const;
