import type { Frame, Remark, Speaker } from '../../contract/index.ts';
import type { Outgoing } from './outbox.ts';

/** A remark as this page shows it: one of the frame, or one that has not reached the station. */
export interface SaidRemark extends Remark {
  /** Null once the station has it. */
  readonly waits: Outgoing | null;
  readonly waitingAnswers: readonly Outgoing[];
}

/** What was said of a frame, with what waits on this device behind it. */
export function saidRemarks(frame: Frame, letters: readonly Outgoing[]): SaidRemark[] {
  const known = new Set(frame.remarks.map(({ id }) => id));
  const answersTo = (remark: Pick<Remark, 'id' | 'answers'>): Outgoing[] =>
    letters.filter(
      ({ letter }) =>
        letter.kind === 'answer' &&
        letter.remark === remark.id &&
        !remark.answers.some(({ id }) => id === letter.body.id),
    );
  return [
    ...frame.remarks.map((remark) => ({ ...remark, waits: null, waitingAnswers: answersTo(remark) })),
    ...letters.flatMap((outgoing): SaidRemark[] => {
      const { letter } = outgoing;
      if (letter.kind !== 'remark' || letter.frame !== frame.id || known.has(letter.body.id)) return [];
      const { id, point, text, name, inside = false } = letter.body;
      const by: Speaker = { name: name ?? '', from: 'guest', link: null };
      return [
        {
          ...{ id, point, text, by, inside, settled: null, answers: [] },
          // Not told yet: the station says when.
          at: '',
          waits: outgoing.sent ? null : outgoing,
          waitingAnswers: [],
        },
      ];
    }),
  ];
}
