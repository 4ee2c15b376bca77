import type { ReactNode } from 'react';
import { jobLabels } from '../../words/index.ts';
import type { FrameList } from '../state/index.ts';
import type { Carried } from './use-carry.ts';

interface CarriageProps {
  readonly carried: Carried | null;
  readonly frames: FrameList;
}

/** The name of the frame that is dragged, hanging at the pointer. For eyes only: a drag is seen. */
export function Carriage({ carried, frames }: CarriageProps): ReactNode {
  const frame = carried === null ? undefined : frames.byId.get(carried.frame);
  if (carried === null || frame === undefined) return null;
  return (
    <p
      className="carriage"
      aria-hidden="true"
      style={{ translate: `${carried.left + 14}px ${carried.top + 30}px` }}
    >
      {carried.over === null ? jobLabels.carried(frame.name) : jobLabels.letGoHere(frame.name)}
    </p>
  );
}
