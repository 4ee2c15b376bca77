import type { Frame, Shot } from '../../contract/index.ts';
import { type Question, questions } from '../../facts/index.ts';

/**
 * The required verdicts of a frame that are neither good nor accepted. The rule is the room job's (`openQuestions` there);
 * the page hears with each acceptance whether it still covers.
 */
export function openQuestions(
  shot: Pick<Shot, 'requires'>,
  { purpose, verdicts, acceptances }: Pick<Frame, 'purpose' | 'verdicts' | 'acceptances'>,
): readonly Question[] {
  return questions
    .filter((question) => shot.requires.includes(question))
    .filter((question) => purpose === 'picture' || question === 'arrived')
    .filter((question) => verdicts[question].judgement !== 'good')
    .filter((question) => !acceptances.some((each) => each.question === question && each.covers));
}
