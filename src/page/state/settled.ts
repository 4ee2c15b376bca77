import type { Frame } from '../../contract/index.ts';
import { type Judgement, type Question, questions } from '../../facts/index.ts';

/** Why a verdict that is not good calls nobody: somebody took it upon themselves, or the shot does not speak of it, or it is not asked of a test. */
export type Settled = 'accepted' | 'muted' | 'not-asked';

export type SettledFrame = Pick<Frame, 'purpose' | 'verdicts' | 'acceptances' | 'mutes'>;

/**
 * Whether a verdict is settled, so that neither the sentence nor a sound speaks of it; null where it is good, or open. Of the
 * arrival only a doubt is muted: a file that is not whole is told whatever the shot says.
 */
export function settledOf(
  { purpose, verdicts, acceptances, mutes }: SettledFrame,
  question: Question,
): Settled | null {
  const { judgement } = verdicts[question];
  if (judgement === 'good') return null;
  if (acceptances.some((each) => each.question === question && each.covers)) return 'accepted';
  // Light being tried, or a slate held into the picture: only whether it came is asked of it.
  if (purpose === 'test' && question !== 'arrived') return 'not-asked';
  const isMuted = mutes.includes(question) && (question !== 'arrived' || judgement === 'doubt');
  return isMuted ? 'muted' : null;
}

/** The verdicts with what is settled of them, as `frameSentence` (words) takes them. */
export function verdictsWithSettled(
  frame: SettledFrame,
): Readonly<Record<Question, Frame['verdicts'][Question] & { readonly settled: Settled | null }>> {
  const of = (question: Question): Frame['verdicts'][Question] & { readonly settled: Settled | null } => ({
    ...frame.verdicts[question],
    settled: settledOf(frame, question),
  });
  return {
    arrived: of('arrived'),
    sharp: of('sharp'),
    exposed: of('exposed'),
    inPlace: of('inPlace'),
    colour: of('colour'),
  };
}

/** How a verdict stands where nobody is called by it: good, where it is settled. */
export function openJudgement(frame: SettledFrame, question: Question): Judgement {
  return settledOf(frame, question) === null ? frame.verdicts[question].judgement : 'good';
}

/** Whether any of its verdicts was taken upon themselves by somebody. */
export function hasAccepted(frame: SettledFrame): boolean {
  return questions.some((question) => settledOf(frame, question) === 'accepted');
}
