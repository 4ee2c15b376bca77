import { type BagDesk, bagDesk } from '../../contract/index.ts';
import { isElsewhere } from './link-calls.ts';
import { ask, callMsMax, parsed, Refused, sendBody } from './station-call.ts';

/** Where archive packages may lie, and how the last one went; null where this device may not ask. */
export async function fetchBags(signal: AbortSignal): Promise<BagDesk | null> {
  if (await isElsewhere(signal)) return null;
  try {
    return parsed(bagDesk, await ask('/api/v1/bags', signal));
  } catch (thrown) {
    if (thrown instanceof Refused && thrown.code === 'operator-only') return null;
    throw thrown;
  }
}

/** Its progress comes as events, as of the next one. */
export async function makeBag(job: string, folder: string): Promise<void> {
  await sendBody('POST', '/api/v1/bags', { job, folder });
}

export async function checkBag(folder: string): Promise<void> {
  await sendBody('POST', '/api/v1/bags/check', { folder });
}

/** Ends what goes on. */
export async function stopBag(): Promise<void> {
  await ask('/api/v1/bags', AbortSignal.timeout(callMsMax), { method: 'DELETE' });
}
