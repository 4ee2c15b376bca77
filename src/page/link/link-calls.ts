import {
  type LinkList,
  linkList,
  type MadeLink,
  madeLink,
  type NewLink,
  type Visitor,
  visitor,
} from '../../contract/index.ts';
import { ask, callMsMax, parsed, sendBody } from './station-call.ts';

/** Links that have not ended, and the door they lead to. */
export async function fetchLinks(signal: AbortSignal): Promise<LinkList> {
  return parsed(linkList, await ask('/api/v1/links', signal));
}

/** A new link with its addresses, which are told this once. Rejects with the station's own words. */
export async function makeLink(wish: NewLink): Promise<MadeLink> {
  return parsed(madeLink, await sendBody('POST', '/api/v1/links', wish));
}

/** Ends a link at once. */
export async function endLink(id: string): Promise<void> {
  await sendBody('DELETE', `/api/v1/links/${encodeURIComponent(id)}`, null);
}

/** Exchanges the secret of a link for a cookie. Rejects with the station's own words. */
export async function enterByLink(token: string): Promise<Visitor> {
  return parsed(visitor, await sendBody('POST', '/api/v1/links/enter', { token }));
}

/** This device goes: whoever takes it up next is nobody. */
export async function leaveLink(): Promise<void> {
  await sendBody('DELETE', '/api/v1/links/me', null);
}

/** Who this page is shown to. Rejects where it is nobody any more. */
export async function fetchVisitor(signal: AbortSignal): Promise<Visitor> {
  return parsed(visitor, await ask('/api/v1/links/me', signal));
}

/**
 * Whether this device is known to be another than the station's own computer, which alone is told of cards and packages: it does not
 * ask for them at all.
 */
export async function isElsewhere(signal: AbortSignal): Promise<boolean> {
  try {
    return (await fetchVisitor(signal)).ends !== null;
  } catch {
    return false;
  }
}

/** Whether the station answers and says that this device has no link any more. False where it does not answer at all. */
export async function isShutOut(signal: AbortSignal): Promise<boolean> {
  try {
    const answer = await fetch('/api/v1/links/me', {
      signal: AbortSignal.any([signal, AbortSignal.timeout(callMsMax)]),
    });
    return answer.status === 403;
  } catch {
    return false;
  }
}
