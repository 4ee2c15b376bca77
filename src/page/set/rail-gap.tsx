import type { ReactNode } from 'react';
import { pageLabels, sentence } from '../../words/index.ts';
import type { CounterGap } from '../state/index.ts';
import type { RailSpot } from './rail-items.ts';

interface GapNoteProps {
  readonly gap: CounterGap;
  readonly spot: RailSpot;
}

/** Where a counter jumps: the numbers that never came. */
export function GapNote({ gap, spot }: GapNoteProps): ReactNode {
  const [from, to] = [padded(gap.from), padded(gap.to)];
  const args = { from, to, count: gap.count };
  return (
    <p className="rail-gap" style={{ ...spot }} title={sentence({ code: 'page.counter-gap', args })}>
      {gap.count === 1 ? from : `${from}–${to}`} {pageLabels.missing}
    </p>
  );
}

/** As in a DCF file name, four digits. */
const padded = (counter: number): string => String(counter).padStart(4, '0');
