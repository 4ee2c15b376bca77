import {
  type Destination,
  type DestinationTest,
  destination,
  destinationList,
  destinationTest,
  type PutDestination,
} from '../../contract/index.ts';
import { ask, callMsMax, parsed, sendBody } from './station-call.ts';

/** Places that deliveries can be sent to; no secrets. */
export async function fetchDestinations(signal: AbortSignal): Promise<readonly Destination[]> {
  return parsed(destinationList, await ask('/api/v1/destinations', signal)).destinations;
}

/** Makes one, or changes the one of that name. */
export async function putDestination(name: string, wish: PutDestination): Promise<Destination> {
  return parsed(destination, await sendBody('PUT', addressOf(name), wish));
}

export async function forgetDestination(name: string): Promise<void> {
  await ask(addressOf(name), AbortSignal.timeout(callMsMax), { method: 'DELETE' });
}

/** A server that does not answer is waited for. */
const testMsMax = 120_000;

/** Sends a small file there and takes it away again. */
export async function testDestination(name: string): Promise<DestinationTest> {
  const until = AbortSignal.timeout(testMsMax);
  return parsed(destinationTest, await ask(`${addressOf(name)}/test`, until, { method: 'POST' }));
}

function addressOf(name: string): string {
  return `/api/v1/destinations/${encodeURIComponent(name)}`;
}
