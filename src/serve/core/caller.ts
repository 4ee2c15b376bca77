/**
 * Who asks, judged by where the connection comes from and what the browser says of the page behind it. Pure, so that
 * every line can be tested without a socket.
 */

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

/** Whether a `Host` is one of these names or addresses of this computer, with any port. IPv6 stands in brackets there. */
export function isOwnHost(host: string | undefined, own: readonly string[]): boolean {
  const name = /^(\[[0-9a-f:.]+\]|[a-z0-9.-]+)(?::\d{1,5})?$/i.exec(host ?? '')?.[1]?.toLowerCase();
  return name !== undefined && own.some((each) => name === (each.includes(':') ? `[${each}]` : each));
}

export interface Provenance {
  readonly method: string;
  /** How the connection came. */
  readonly scheme: 'http' | 'https';
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
  if (origin !== undefined && !isSameOrigin(origin, request)) return false;
  if (fetchSite === undefined || fetchSite === 'same-origin' || fetchSite === 'none') return true;
  return request.method === 'GET' && request.fetchMode === 'navigate';
}

function isSameOrigin(origin: string, { scheme, host }: Provenance): boolean {
  return host !== undefined && origin.toLowerCase() === `${scheme}://${host.toLowerCase()}`;
}
