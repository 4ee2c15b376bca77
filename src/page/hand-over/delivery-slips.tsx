import type { ReactNode } from 'react';
import type { DeliveryState } from '../../contract/index.ts';
import { handOverLabels as labels } from '../../words/index.ts';
import { DeliverySlip } from './delivery-slip.tsx';
import { foldedAway } from './folded-away.ts';

/** The deliveries: what goes on or waits, and what came last; those that are over lie behind a line that counts them. */
export function DeliverySlips({ deliveries }: { readonly deliveries: readonly DeliveryState[] }): ReactNode {
  const { shown, folded } = foldedAway(deliveries);
  if (deliveries.length === 0) return <p>{labels.noDeliveries}</p>;
  return (
    <>
      <Slips of={shown} />
      {folded.length === 0 ? null : (
        <details className="hand-details hand-over-ones">
          <summary>{labels.overOnes(folded.length)}</summary>
          <Slips of={folded} />
        </details>
      )}
    </>
  );
}

function Slips({ of }: { readonly of: readonly DeliveryState[] }): ReactNode {
  return (
    <ol className="hand-slips">
      {of.map((each) => (
        <DeliverySlip key={each.id} state={each} />
      ))}
    </ol>
  );
}
