import { useMemo } from 'react';
import type { Frame } from '../../../contract/index.ts';
import type { Question } from '../../../facts/index.ts';
import { firstLaid, type LaidChoice } from '../../readings/laid.ts';
import type { Laid } from '../../readings/laid-painter.ts';
import { useLaid } from '../../readings/use-laid.ts';
import { useReadings } from '../../readings/use-readings.ts';
import { useReference } from '../../readings/use-reference.ts';
import { heldAgainst, type PageState } from '../../state/index.ts';

const choice: LaidChoice = firstLaid;

/** What lies over one of the compared pictures: the map of the same verdict on each. */
export function useOver({ frames }: PageState, frame: Frame, laid: Question | null): Laid | null {
  const { readings } = useReadings(frame, laid !== null);
  const against = useMemo(() => heldAgainst(frame), [frame]);
  const reference = useReference(against, frames, laid === 'inPlace');
  return useLaid(laid, frame, readings, choice, reference);
}
