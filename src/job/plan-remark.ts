import { SetsideError } from '../base/index.ts';
import type { Remark, RemarkAnswer, Speaker } from '../facts/index.ts';
import type { RemarkChoice } from './choice.ts';
import { remarkCharactersOfFrameMax, remarkEntriesOfFrameMax } from './limits.ts';

type NewRemark = Extract<RemarkChoice, { type: 'remark-made' }>['remark'];
type NewAnswer = Omit<RemarkAnswer, 'atMs'>;

/** The remarks of a frame as they stand. */
export interface RemarkedFrame {
  readonly id: string;
  readonly remarks: readonly Remark[];
}

/**
 * A remark is pinned to a frame; no choice where the very same is there: it was sent twice. In a closed job too: a client's
 * word often comes after the day. Throws `id-taken`, `too-many-remarks`.
 */
export function planRemark(frame: RemarkedFrame, remark: NewRemark): RemarkChoice[] {
  const known = frame.remarks.find(({ id }) => id === remark.id);
  if (known !== undefined) {
    assertSame(known, remark);
    return [];
  }
  assertRoom(frame, remark.text);
  return [{ type: 'remark-made', frame: frame.id, remark }];
}

/**
 * A remark is answered; where a guest answers one that was settled, it is open again, so that nobody overlooks it. Throws
 * `no-remark`, `id-taken`, `too-many-remarks`.
 */
export function planAnswer(frame: RemarkedFrame, remark: string, answer: NewAnswer): RemarkChoice[] {
  const known = remarkOf(frame, remark, answer.by);
  const before = known.answers.find(({ id }) => id === answer.id);
  if (before !== undefined) {
    assertSame(before, answer);
    return [];
  }
  assertRoom(frame, answer.text);
  const reopens = known.settled !== null && answer.by.from === 'guest';
  return [
    { type: 'remark-answered', frame: frame.id, remark, answer },
    ...(reopens
      ? [{ type: 'remark-settled', frame: frame.id, remark, settled: false, by: answer.by } as const]
      : []),
  ];
}

/** A remark is settled, or open again; no choice where it is so already. Throws `no-remark`. */
export function planSettling(
  frame: RemarkedFrame,
  remark: string,
  settled: boolean,
  by: Speaker,
): RemarkChoice[] {
  const known = remarkOf(frame, remark, by);
  if ((known.settled !== null) === settled) return [];
  return [{ type: 'remark-settled', frame: frame.id, remark, settled, by }];
}

/** For a guest one that is not for guests is not there. */
function remarkOf({ id: frame, remarks }: RemarkedFrame, id: string, by: Speaker): Remark {
  const known = remarks.find((each) => each.id === id);
  if (known === undefined || (known.inside && by.from === 'guest'))
    throw new SetsideError('no-remark', `frame ${frame} has no remark ${id}`);
  return known;
}

/** Who sends again may have given another name meanwhile; the text is what counts. */
function assertSame(
  known: { readonly id: string; readonly text: string },
  again: { readonly text: string },
): void {
  if (known.text !== again.text) throw new SetsideError('id-taken', `something else has the id ${known.id}`);
}

function assertRoom({ id, remarks }: RemarkedFrame, text: string): void {
  const texts = remarks.flatMap((remark) => [remark.text, ...remark.answers.map((answer) => answer.text)]);
  const characters = texts.reduce((sum, each) => sum + each.length, 0);
  if (texts.length < remarkEntriesOfFrameMax && characters + text.length <= remarkCharactersOfFrameMax)
    return;
  throw new SetsideError('too-many-remarks', `frame ${id} has ${texts.length} remarks and answers`);
}
