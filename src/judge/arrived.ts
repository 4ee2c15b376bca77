import type { ArrivalState, Finding, Verdict } from '../facts/index.ts';
import type { MissingPartner } from './partner.ts';

/** What is known of one file of a frame when it is judged. */
export interface ArrivedFacts {
  readonly state: ArrivalState;
  /** Bytes here. */
  readonly bytes: number;
  /** What an announcement or the structure says there must be; null where neither does. */
  readonly expectedBytes: number | null;
  /** First byte to kept, milliseconds; null while arriving. */
  readonly tookMs: number | null;
  /** Verified copies on another device. */
  readonly copies: number;
  /** Verified copies on the home's own device, which are none: two folders of one disk fail together. */
  readonly copiesBeside: number;
  /** A second place whose copy was read and is not as it was made, so that it is not among `copies`; null while nobody found that. */
  readonly badCopyIn: string | null;
  /** Taken from a watched folder: no camera sends it again, and what broke off is taken again by itself. */
  readonly fromFolder: boolean;
  /** The raw or the JPEG that should have come with it; null where nothing is missing. */
  readonly missing: MissingPartner | null;
  /** How the original was found not to be as it was received, and a second place with a copy; null while nobody found that. */
  readonly original: {
    readonly trouble: 'missing' | 'differs' | 'unreadable';
    readonly copyIn: string | null;
  } | null;
}

/**
 * The first of the five questions: is the frame here, whole, and in two places?
 *
 * The rule: an original that is gone or altered on the disk, `damaged`, `broken-off` and an empty file are `bad`; a file still arriving or of unprovable wholeness is
 * `unknown` - never `good` (decision 0008, keeping 2); a whole file whose partner did not come, that is in one place only, or one of whose
 * copies is bad, is a `doubt`, because one disk is no copy and a disk that alters one copy may alter more.
 */
export function judgeArrived(facts: ArrivedFacts): Verdict {
  const figure = { value: facts.bytes / 1e6, unit: 'MB' };
  if (facts.original !== null) {
    const { trouble, copyIn } = facts.original;
    const finding = { code: `arrived.original-${trouble}`, args: { folder: copyIn ?? '' } };
    return { judgement: 'bad', findings: [finding], figure };
  }
  if (facts.state === 'damaged')
    return { judgement: 'bad', findings: [cut('arrived.damaged', facts)], figure };
  if (facts.state === 'broken-off') return { judgement: 'bad', findings: [brokenOff(facts)], figure };
  if (facts.state === 'arriving')
    return { judgement: 'unknown', findings: [cut('arrived.arriving', facts)], figure };
  if (facts.bytes === 0) return { judgement: 'bad', findings: [{ code: 'arrived.empty', args: {} }], figure };
  const bad = badCopy(facts);
  if (facts.state === 'unproved') {
    return {
      judgement: 'unknown',
      findings: [{ code: 'arrived.unproved', args: { bytes: facts.bytes } }, ...(bad === null ? [] : [bad])],
      figure,
    };
  }
  const whole = wholeFinding(facts);
  if (facts.missing !== null) {
    const partner: Finding = { code: `arrived.${facts.missing}-missing`, args: {} };
    return { judgement: 'doubt', findings: [partner, whole, ...(bad === null ? [] : [bad])], figure };
  }
  if (bad !== null) return { judgement: 'doubt', findings: [bad], figure };
  return { judgement: facts.copies > 0 ? 'good' : 'doubt', findings: [whole], figure };
}

/** The verdict of a question nobody has a reading for. */
export const notMeasured: Verdict = {
  judgement: 'unknown',
  findings: [{ code: 'judge.not-measured', args: {} }],
};

function badCopy({ badCopyIn, bytes, copies }: ArrivedFacts): Finding | null {
  if (badCopyIn === null) return null;
  return { code: 'arrived.copy-bad', args: { bytes, folder: badCopyIn, places: copies + 1 } };
}

function wholeFinding({ bytes, tookMs, copies, copiesBeside }: ArrivedFacts): Finding {
  const args = { bytes, ms: tookMs ?? 0 };
  if (copies > 0) return { code: 'arrived.whole', args: { ...args, places: copies + 1 } };
  return { code: copiesBeside > 0 ? 'arrived.same-device' : 'arrived.one-place', args };
}

function brokenOff(facts: ArrivedFacts): Finding {
  const { code, args } = cut('arrived.broken-off', facts);
  return { code, args: { ...args, via: facts.fromFolder ? 'folder' : 'line' } };
}

function cut(code: string, facts: ArrivedFacts): Finding {
  return { code, args: { bytes: facts.bytes, expectedBytes: facts.expectedBytes ?? 0 } };
}
