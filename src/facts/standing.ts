import type { Purpose } from './purpose.ts';
import { type Judgement, type Question, questions } from './verdict.ts';

/** Why a verdict that is not good calls nobody: somebody took it upon themselves, or the shot does not speak of it, or it is not asked of a test. */
export type Settled = 'accepted' | 'muted' | 'not-asked';

/** What of a frame says how it stands. */
export interface JudgedFrame {
  readonly purpose: Purpose;
  readonly verdicts: Readonly<Record<Question, { readonly judgement: Judgement }>>;
  readonly acceptances: readonly { readonly question: Question; readonly covers: boolean }[];
  readonly mutes: readonly Question[];
}

/**
 * Whether a verdict is settled, so that neither the sentence nor a sound speaks of it; null where it is good, or open. Of the
 * arrival only a doubt is muted: a file that is not whole is told whatever the shot says.
 */
export function settledOf(
  { purpose, verdicts, acceptances, mutes }: JudgedFrame,
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

/** How a verdict stands where nobody is called by it: good, where it is settled. */
export function openJudgement(frame: JudgedFrame, question: Question): Judgement {
  return settledOf(frame, question) === null ? frame.verdicts[question].judgement : 'good';
}

/** Whether any of its verdicts was taken upon themselves by somebody. */
export function hasAccepted(frame: JudgedFrame): boolean {
  return questions.some((question) => settledOf(frame, question) === 'accepted');
}

/** How a frame stands as a whole; `accepted` where all that was open has been taken upon themselves by somebody. */
export type Standing = Judgement | 'accepted';

/** Why a file is not shown where nothing is wrong with it: what is no picture, or of no kind that is known. */
const nothingWrong: ReadonlySet<string> = new Set(['picture.not-a-picture', 'picture.unknown-kind']);

/**
 * The shape beside a frame: bad, then doubt; else what is known of the arrival. What is settled does not count. `cannotShow`:
 * code of why there is no picture; null where there is one, or will be.
 */
export function standingOf(frame: JudgedFrame, cannotShow: string | null): Standing {
  const all = questions.map((question) => openJudgement(frame, question));
  if (all.includes('bad')) return 'bad';
  if (all.includes('doubt') || (cannotShow !== null && !nothingWrong.has(cannotShow))) return 'doubt';
  const arrived = openJudgement(frame, 'arrived');
  return arrived === 'good' && hasAccepted(frame) ? 'accepted' : arrived;
}
