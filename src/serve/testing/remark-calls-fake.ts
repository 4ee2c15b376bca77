import type { Agreement, Frame } from '../../contract/index.ts';
import type { AgreementCalls, RemarkCalls } from '../remark-calls.ts';

/** Notes what was asked and gives what it was given to give. */
export class RemarkCallsFake implements RemarkCalls, AgreementCalls {
  readonly #note: (...asked: unknown[]) => void;
  readonly #frame: (id: string) => Frame | null;
  /** By job. */
  readonly given = new Map<string, readonly Agreement[]>();

  constructor(note: (...asked: unknown[]) => void, frame: (id: string) => Frame | null) {
    this.#note = note;
    this.#frame = frame;
  }

  remark: RemarkCalls['remark'] = async (frame, wish, who) => {
    this.#note('remark', frame, wish, who);
    return this.#frame(frame);
  };

  answerRemark: RemarkCalls['answerRemark'] = async (frame, remark, wish, who) => {
    this.#note('answerRemark', frame, remark, wish, who);
    return this.#frame(frame);
  };

  settleRemark: RemarkCalls['settleRemark'] = async (frame, remark, wish, who) => {
    this.#note('settleRemark', frame, remark, wish, who);
    return this.#frame(frame);
  };

  agreements: AgreementCalls['agreements'] = async (job) => this.given.get(job) ?? null;

  agree: AgreementCalls['agree'] = async (job, shot, wish, who) => {
    this.#note('agree', job, shot, wish, who);
    return this.given.get(job) ?? null;
  };

  withdrawAgreement: AgreementCalls['withdrawAgreement'] = async (job, agreement, who) => {
    this.#note('withdrawAgreement', job, agreement, who);
    return this.given.get(job) ?? null;
  };
}
