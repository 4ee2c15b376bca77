import { type Strike, strike } from '../../contract/index.ts';
import { ask, parsed, sendBody } from './station-call.ts';

/** A job of twenty thousand frames is looked through: seconds on a slow computer. */
const checkMsMax = 60_000;

/** The strike check of a job; null for the open one. Rejects where there is none. */
export async function fetchStrike(job: string | null, signal: AbortSignal): Promise<Strike> {
  const query = job === null ? '' : `?job=${encodeURIComponent(job)}`;
  const until = AbortSignal.any([signal, AbortSignal.timeout(checkMsMax)]);
  return parsed(strike, await ask(`/api/v1/strike${query}`, until));
}

/** The number that the camera shows for its last frame; null takes it back. */
export async function sayLastNumber(
  job: string,
  { camera, prefix }: { readonly camera: string; readonly prefix: string },
  counter: number | null,
): Promise<Strike> {
  const address = `${strikeAddress(job)}/numbers/${encodeURIComponent(camera)}`;
  if (counter === null)
    return parsed(strike, await sendBody('DELETE', `${address}?prefix=${encodeURIComponent(prefix)}`, null));
  return parsed(strike, await sendBody('PUT', address, { counter, prefix }));
}

/** Takes a line upon oneself. */
export async function explainLine(
  job: string,
  line: string,
  by: { readonly name: string; readonly reason: string },
): Promise<Strike> {
  return parsed(strike, await sendBody('POST', `${strikeAddress(job)}/explained`, { line, ...by }));
}

/** Takes that back. */
export async function unexplainLine(job: string, line: string): Promise<Strike> {
  const address = `${strikeAddress(job)}/explained?line=${encodeURIComponent(line)}`;
  return parsed(strike, await sendBody('DELETE', address, null));
}

/** Signs the check whose `state` was seen; null for the name takes the signature back. */
export async function signStrike(job: string, name: string | null, state: string): Promise<Strike> {
  const address = `${strikeAddress(job)}/signature`;
  const answer =
    name === null ? sendBody('DELETE', address, null) : sendBody('PUT', address, { name, state });
  return parsed(strike, await answer);
}

function strikeAddress(job: string): string {
  return `/api/v1/jobs/${encodeURIComponent(job)}/strike`;
}
