import type { Frame } from '../../contract/index.ts';
import { type Judgement, questions } from '../../facts/index.ts';

/** Why a file is not shown where nothing is wrong with it: what is no picture, or of no kind that is known. */
const nothingWrong: ReadonlySet<string> = new Set(['picture.not-a-picture', 'picture.unknown-kind']);

/** The shape beside the sentence: bad, then doubt; else what is known of the arrival. */
export function worstJudgement({ verdicts, picture }: Frame): Judgement {
  const all = questions.map((question) => verdicts[question].judgement);
  if (all.includes('bad')) return 'bad';
  const cannot = picture.state === 'cannot' && !nothingWrong.has(picture.reason.code);
  return all.includes('doubt') || cannot ? 'doubt' : verdicts.arrived.judgement;
}
