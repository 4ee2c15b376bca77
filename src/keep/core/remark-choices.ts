import type { GivenAgreement, Remark, RemarkAnswer, Speaker } from '../../facts/index.ts';

/** What guests and the operator say to each other: remarks on frames, and agreements to heroes. */
export type RemarkChoice = RemarkMade | RemarkAnswered | RemarkSettled | Agreed | AgreementWithdrawn;

/** A remark was pinned to a frame. Its id was made on the page, so that it is kept once. */
export interface RemarkMade {
  readonly type: 'remark-made';
  readonly frame: string;
  readonly remark: Pick<Remark, 'id' | 'at' | 'text' | 'inside' | 'by'>;
}

export interface RemarkAnswered {
  readonly type: 'remark-answered';
  readonly frame: string;
  readonly remark: string;
  readonly answer: Omit<RemarkAnswer, 'atMs'>;
}

/** A remark is settled, or open again. */
export interface RemarkSettled {
  readonly type: 'remark-settled';
  readonly frame: string;
  readonly remark: string;
  readonly settled: boolean;
  readonly by: Speaker;
}

/** Somebody gave their word on the heroes of a shot; what the same speaker said of it before is replaced. */
export interface Agreed {
  readonly type: 'agreed';
  readonly job: string;
  readonly agreement: GivenAgreement;
}

export interface AgreementWithdrawn {
  readonly type: 'agreement-withdrawn';
  readonly job: string;
  readonly agreement: string;
}
