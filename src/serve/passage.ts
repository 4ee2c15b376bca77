import type { IncomingMessage } from 'node:http';
import type { FastifyRequest } from 'fastify';
import { isLoopbackAddress } from './core/caller.ts';
import { secretIn } from './core/cookie.ts';

/** Requests that came in by the door for links. */
const byLinkDoor = new WeakSet<IncomingMessage>();

/** Notes that a request came in by the door for links. */
export function noteOutside(request: IncomingMessage): void {
  byLinkDoor.add(request);
}

/**
 * Whether a request came from another device. At the door for links even a loopback address proves nothing: a tunnel, a
 * container or a proxy on this computer hands strangers on under it.
 */
export function isOutside({ raw }: FastifyRequest): boolean {
  const { remoteAddress } = raw.socket;
  return byLinkDoor.has(raw) || remoteAddress === undefined || !isLoopbackAddress(remoteAddress);
}

/** Whether a request came under TLS. No header can say so. */
export function isEncrypted({ raw }: FastifyRequest): boolean {
  return 'encrypted' in raw.socket && raw.socket.encrypted === true;
}

/** The secret in the request's cookie. */
export function heldSecret(request: FastifyRequest): string | null {
  return secretIn(request.headers.cookie, isEncrypted(request));
}
