import type { Frame } from '../../contract/index.ts';
import { planAnswer, planRemark, planSettling, type RemarkChoice } from '../../job/index.ts';
import type { Keep } from '../../keep/index.ts';
import type { FrameRow } from '../../register/index.ts';
import type { RemarkCalls, Who } from '../../serve/index.ts';
import type { FrameBook } from '../frame-book.ts';
import type { FrameFlow } from '../frame-flow.ts';
import { chosenBy } from '../jobs/chosen-by.ts';
import type { InTurn } from '../turn.ts';
import { speakerOf } from './speaker-of.ts';

export interface RemarkDeskOptions {
  readonly book: Pick<FrameBook, 'row' | 'frame'>;
  readonly flow: Pick<FrameFlow, 'changed'>;
  readonly keep: Pick<Keep, 'appendTogether'>;
  readonly inTurn: InTurn;
}

/** What people say of frames. Looking whether it was said before and journalling it is one step. */
export function createRemarkDesk(options: RemarkDeskOptions): RemarkCalls {
  return {
    remark: (frame, wish, who) =>
      say(options, who, frame, (row) =>
        planRemark(row, {
          id: wish.id,
          at: wish.point,
          text: wish.text,
          inside: who.scope !== 'guest' && wish.inside === true,
          by: speakerOf(who, wish.name),
        }),
      ),
    answerRemark: (frame, remark, { id, name, text }, who) =>
      say(options, who, frame, (row) => planAnswer(row, remark, { id, text, by: speakerOf(who, name) })),
    settleRemark: (frame, remark, { settled, name }, who) =>
      say(options, who, frame, (row) => planSettling(row, remark, settled, speakerOf(who, name))),
  };
}

/** In its turn; null where there is no such frame. */
function say(
  { book, flow, keep, inTurn }: RemarkDeskOptions,
  who: Who,
  frame: string,
  plan: (row: FrameRow) => RemarkChoice[],
): Promise<Frame | null> {
  return inTurn(async () => {
    const row = await book.row(frame);
    if (row === null || row.files.length === 0) return null;
    const choices = plan(row);
    if (choices.length > 0) {
      await keep.appendTogether(chosenBy(who, choices));
      await flow.changed(frame, 'remarked');
    }
    return book.frame(frame);
  });
}
