import {
  type CardCheck,
  type CardDesk,
  cardCheck,
  cardDesk,
  type Delivery,
  type DeliveryChange,
  type DeliveryPlan,
  delivery,
  deliveryList,
  deliveryPlan,
  type NewDelivery,
  type PutBackAnswer,
  putBackAnswer,
  type SpecificationList,
  specificationList,
  type Verification,
  verification,
} from '../../contract/index.ts';
import type { HandOverNews } from '../state/index.ts';
import { fetchBags } from './bag-calls.ts';
import { isElsewhere } from './link-calls.ts';
import { ask, callMsMax, jsonCall, parsed, Refused, sendBody } from './station-call.ts';

/** A second place on a slow disk, and many originals. */
const putBackMsMax = 3_600_000;

/** What is told of by events from then on. A station's own computer alone is told of cards and packages. */
export async function fetchHandOver(signal: AbortSignal): Promise<HandOverNews> {
  const [deliveries, cards, bags, again] = await Promise.all([
    ask('/api/v1/deliveries', signal),
    fetchCards(signal),
    fetchBags(signal),
    ask('/api/v1/verification', signal),
  ]);
  return {
    deliveries: parsed(deliveryList, deliveries).deliveries,
    card: cards?.check ?? null,
    bag: bags?.work ?? null,
    verification: parsed(verification, again),
    // Told with the next frame that is drawn.
    papers: new Map(),
  };
}

/** Folders that may be checked as cards; null where this device may not ask. */
export async function fetchCards(signal: AbortSignal): Promise<CardDesk | null> {
  if (await isElsewhere(signal)) return null;
  try {
    return parsed(cardDesk, await ask('/api/v1/cards', signal));
  } catch (thrown) {
    if (thrown instanceof Refused && thrown.code === 'operator-only') return null;
    throw thrown;
  }
}

export async function fetchDelivery(id: string, signal: AbortSignal): Promise<Delivery> {
  return parsed(delivery, await ask(`/api/v1/deliveries/${encodeURIComponent(id)}`, signal));
}

export async function fetchSpecifications(signal: AbortSignal): Promise<SpecificationList['specifications']> {
  return parsed(specificationList, await ask('/api/v1/deliveries/specifications', signal)).specifications;
}

/** A job of many thousand frames is looked through: seconds on a slow computer. */
const planMsMax = 60_000;

/** What would be made. Rejects with the station's own words, `nothing-to-deliver` among them. */
export async function planDelivery(wish: NewDelivery, signal: AbortSignal): Promise<DeliveryPlan> {
  const call = {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(wish),
  };
  const until = AbortSignal.any([signal, AbortSignal.timeout(planMsMax)]);
  return parsed(deliveryPlan, await ask('/api/v1/deliveries/plan', until, call));
}

/** Its progress comes as events. */
export async function beginDelivery(wish: NewDelivery): Promise<Delivery> {
  return parsed(delivery, await sendBody('POST', '/api/v1/deliveries', wish));
}

export async function changeDelivery(id: string, change: DeliveryChange): Promise<void> {
  await sendBody('PATCH', `/api/v1/deliveries/${encodeURIComponent(id)}`, change);
}

/** Its progress comes as events, as of the next two. */
export async function checkCard(folder: string): Promise<CardCheck> {
  return parsed(cardCheck, await sendBody('POST', '/api/v1/cards', { folder }));
}

export async function takeInCard(camera: string): Promise<CardCheck> {
  return parsed(cardCheck, await sendBody('POST', '/api/v1/cards/take-in', { camera }));
}

/** Ends the check, or the taking in. */
export async function stopCard(): Promise<void> {
  await ask('/api/v1/cards', AbortSignal.timeout(callMsMax), { method: 'DELETE' });
}

/** Every original that is known not to be as received. A disk may take its time over many. */
export async function putOriginalsBack(): Promise<PutBackAnswer> {
  const patience = AbortSignal.timeout(putBackMsMax);
  return parsed(putBackAnswer, await ask('/api/v1/originals/put-back', patience, jsonCall('POST', {})));
}

export async function setVerification(state: 'running' | 'stopped'): Promise<Verification> {
  return parsed(verification, await sendBody('PUT', '/api/v1/verification', { state }));
}
