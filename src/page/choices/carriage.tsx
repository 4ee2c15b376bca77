import type { ReactNode } from 'react';
import { jobLabels, shotName } from '../../words/index.ts';
import { openJobOf, type PageState } from '../state/index.ts';
import type { Carried } from './use-carry.ts';

interface CarriageProps {
  readonly carried: Carried | null;
  readonly state: PageState;
}

/** The frame that is dragged and where it would go, hanging at the pointer. For eyes only: a drag is seen. */
export function Carriage({ carried, state }: CarriageProps): ReactNode {
  const frame = carried === null ? undefined : state.frames.byId.get(carried.frame);
  if (carried === null || frame === undefined) return null;
  const shots = openJobOf(state.jobs)?.shots ?? [];
  const shot = shots.find(({ id }) => id === carried.over);
  return (
    <p
      className="carriage"
      aria-hidden="true"
      style={{ translate: `min(${carried.left + 14}px, 100vw - 100% - 8px) ${carried.top + 30}px` }}
    >
      {shot === undefined
        ? jobLabels.carried(frame.name)
        : jobLabels.letGoHere(frame.name, shotName(shot, shots))}
    </p>
  );
}
