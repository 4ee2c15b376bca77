import { memo, type ReactNode } from 'react';
import { burstPhrase } from '../../words/index.ts';
import type { Burst } from '../state/index.ts';
import type { RailSpot } from './rail-items.ts';

interface BurstHeadProps {
  readonly burst: Burst;
  readonly spot: RailSpot;
  readonly headCssPx: number;
}

/** The line over the frames of a burst: how many in which time. */
export const BurstHead = memo(function BurstHead({ burst, spot, headCssPx }: BurstHeadProps): ReactNode {
  return (
    <p className="rail-burst" style={{ ...spot, height: headCssPx - 4 }}>
      {burstPhrase(burst.frames.length, burst.toMs - burst.fromMs)}
    </p>
  );
});
