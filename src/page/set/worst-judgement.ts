import type { Frame } from '../../contract/index.ts';
import { type Standing, standingOf } from '../../facts/index.ts';

export type { Standing };

/** The shape beside the sentence; paper has the same (`standingOf`, facts). */
export function worstJudgement(frame: Frame): Standing {
  const { picture } = frame;
  return standingOf(frame, picture.state === 'cannot' ? picture.reason.code : null);
}
