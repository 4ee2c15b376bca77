import type { Frame } from '../../contract/index.ts';
import { hasAccepted, openJudgement, type Question, type Settled, settledOf } from '../../facts/index.ts';

export { hasAccepted, openJudgement, type Settled, settledOf };

export type SettledFrame = Pick<Frame, 'purpose' | 'verdicts' | 'acceptances' | 'mutes'>;

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
