import type {
  Agreement,
  Frame,
  NewAgreement,
  NewAnswer,
  NewRemark,
  RemarkSettling,
} from '../contract/index.ts';
import type { Who } from './core/who.ts';

/**
 * What people say of frames, durably; gives the frame after it, null where there is no such frame. What has been said
 * already is not said twice: ids are made where it is said. Each rejects `name-wanted` for a guest without a name.
 */
export interface RemarkCalls {
  /** Rejects `id-taken`, `too-many-remarks`. */
  remark(frame: string, wish: NewRemark, who: Who): Promise<Frame | null>;
  /** Rejects `no-remark`, `id-taken`, `too-many-remarks`. */
  answerRemark(frame: string, remark: string, wish: NewAnswer, who: Who): Promise<Frame | null>;
  /** Rejects `no-remark`. */
  settleRemark(frame: string, remark: string, wish: RemarkSettling, who: Who): Promise<Frame | null>;
}

/** Who agreed to which shot of a job; gives all of the job's after it, null where there is no such job. */
export interface AgreementCalls {
  agreements(job: string): Promise<readonly Agreement[] | null>;
  /** Rejects `name-wanted`, `no-shot`, `nothing-to-agree`, `picture-changed`, `id-taken`, `name-taken`, `too-many-agreements`. */
  agree(job: string, shot: string, wish: NewAgreement, who: Who): Promise<readonly Agreement[] | null>;
  /** One that is not there is taken back already. Rejects `not-yours`. */
  withdrawAgreement(job: string, agreement: string, who: Who): Promise<readonly Agreement[] | null>;
}
