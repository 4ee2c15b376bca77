import type { Frame } from '../../contract/index.ts';
import { type Judgement, questions } from '../../facts/index.ts';
import { hasAccepted, openJudgement } from '../state/index.ts';

/** Why a file is not shown where nothing is wrong with it: what is no picture, or of no kind that is known. */
const nothingWrong: ReadonlySet<string> = new Set(['picture.not-a-picture', 'picture.unknown-kind']);

/** How a frame stands as a whole; `accepted` where all that was open has been taken upon themselves by somebody. */
export type Standing = Judgement | 'accepted';

/** The shape beside the sentence: bad, then doubt; else what is known of the arrival. What is settled does not count. */
export function worstJudgement(frame: Frame): Standing {
  const all = questions.map((question) => openJudgement(frame, question));
  if (all.includes('bad')) return 'bad';
  const { picture } = frame;
  const cannot = picture.state === 'cannot' && !nothingWrong.has(picture.reason.code);
  if (all.includes('doubt') || cannot) return 'doubt';
  const arrived = openJudgement(frame, 'arrived');
  return arrived === 'good' && hasAccepted(frame) ? 'accepted' : arrived;
}
