import { type ClientScreen, type ClientScreenChange, clientScreenList } from '../../contract/index.ts';
import { ask, parsed, sendBody } from './station-call.ts';

/** What the clients are shown. */
export async function fetchClientScreens(signal: AbortSignal): Promise<readonly ClientScreen[]> {
  return parsed(clientScreenList, await ask('/api/v1/client', signal)).screens;
}

/** Says what the client of a job is shown; what changed comes as an event. Rejects with `Refused`. */
export async function showClient(change: ClientScreenChange): Promise<void> {
  await sendBody('PUT', '/api/v1/client', change);
}
