import type { Frame } from '../../contract/index.ts';
import { type Judgement, questions } from '../../facts/index.ts';

/** The shape beside the sentence: bad, then doubt; else what is known of the arrival. */
export function worstJudgement(frame: Frame): Judgement {
  const all = questions.map((question) => frame.verdicts[question].judgement);
  if (all.includes('bad')) return 'bad';
  if (all.includes('doubt') || frame.picture.state === 'cannot') return 'doubt';
  return frame.verdicts.arrived.judgement;
}
