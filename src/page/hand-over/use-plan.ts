import { useEffect, useState } from 'react';
import type { DeliveryPlan, NewDelivery } from '../../contract/index.ts';
import { handOverLabels } from '../../words/index.ts';
import { planDelivery, wordsOf } from '../link/index.ts';

export interface Planned {
  readonly plan: DeliveryPlan | null;
  /** Why nothing can be delivered so; empty where it can, or while that is looked for. */
  readonly refusal: string;
}

/** Somebody who ticks through the choices asks once they rest, ms. */
const restMs = 250;

/** What a delivery would make, looked at anew when the wish is another, or something changed that it may hang on (`seen`). */
export function usePlan(wish: NewDelivery | null, seen: readonly unknown[]): Planned {
  const [planned, setPlanned] = useState<Planned>({ plan: null, refusal: '' });
  const asked = wish === null ? '' : JSON.stringify(wish);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the wish is compared by what it says
  useEffect(() => {
    if (wish === null) {
      setPlanned({ plan: null, refusal: '' });
      return;
    }
    const ended = new AbortController();
    const timer = setTimeout(() => {
      planDelivery(wish, ended.signal).then(
        (plan) => setPlanned({ plan, refusal: '' }),
        (thrown: unknown) => {
          if (ended.signal.aborted) return;
          setPlanned({ plan: null, refusal: wordsOf(thrown, handOverLabels.failed) });
        },
      );
    }, restMs);
    return () => {
      clearTimeout(timer);
      ended.abort();
    };
  }, [asked, ...seen]);
  return planned;
}
