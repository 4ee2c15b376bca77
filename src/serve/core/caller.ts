/**
 * Who asks, judged by where the connection comes from and what the browser says of the page behind it. Pure, so that
 * every line can be tested without a socket.
 */

/** What somebody may do. Today only the operator exists; the others come with links. */
export type Scope = 'operator' | 'pocket' | 'guest';

export interface Who {
  readonly scope: Scope;
  /** For the journal: who chose. */
  readonly name: string;
}

/** Whether a peer's address is this very computer: 127.0.0.0/8 (RFC 1122 section 3.2.1.3 g), ::1, and 127/8 mapped. */
export function isLoopbackAddress(address: string): boolean {
  return address === '::1' || /^(::ffff:)?127\.\d{1,3}\.\d{1,3}\.\d{1,3}$/i.test(address);
}

/**
 * Whether a `Host` names this computer by a name that no foreign name server can point elsewhere. Without this check
 * any web page could have its own name resolved to 127.0.0.1 and speak as the operator (DNS rebinding).
 */
export function isLoopbackHost(host: string | undefined): boolean {
  return host !== undefined && /^(localhost|127\.0\.0\.1|\[::1\])(:\d{1,5})?$/i.test(host);
}

export interface Provenance {
  readonly method: string;
  readonly host: string | undefined;
  readonly origin: string | undefined;
  /** `Sec-Fetch-Site` and `Sec-Fetch-Mode`: W3C Fetch Metadata Request Headers. */
  readonly fetchSite: string | undefined;
  readonly fetchMode: string | undefined;
}

/**
 * Whether a request comes from our own page, from a program, or from a person following a link. What carries an
 * `Origin` must carry ours, and no other site's page may load anything in passing, pictures included. A program that
 * sends none of these headers passes: it is not a browser being used by a stranger.
 */
export function comesFromHere(request: Provenance): boolean {
  const { origin, fetchSite } = request;
  if (origin !== undefined && !isSameOrigin(origin, request.host)) return false;
  if (fetchSite === undefined || fetchSite === 'same-origin' || fetchSite === 'none') return true;
  return request.method === 'GET' && request.fetchMode === 'navigate';
}

function isSameOrigin(origin: string, host: string | undefined): boolean {
  const match = /^https?:\/\/([^/]+)$/i.exec(origin);
  return host !== undefined && match?.[1]?.toLowerCase() === host.toLowerCase();
}
