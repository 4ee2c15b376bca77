import type { Finding } from '../../facts/index.ts';

/** One address of this computer, as the system lists them. */
export interface OwnAddress {
  readonly address: string;
  readonly family: 'IPv4' | 'IPv6';
  readonly interface: string;
  readonly private: boolean;
  /** Of a bridge to guests of this computer, or of a tunnel: given away only where there is no other. */
  readonly beside: boolean;
}

/**
 * Whether an address belongs to a private network or to this computer itself, so that listening there is not listening
 * to the internet: RFC 1918 (10/8, 172.16/12, 192.168/16), RFC 6598 (100.64/10), RFC 3927 (169.254/16), 127/8;
 * for IPv6 RFC 4193 (fc00::/7), RFC 4291 link-local (fe80::/10) and ::1.
 */
export function isPrivateAddress(address: string): boolean {
  const v4 = /^(?:::ffff:)?(\d{1,3})\.(\d{1,3})\.\d{1,3}\.\d{1,3}$/i.exec(address);
  if (v4 !== null) return isPrivateV4(Number(v4[1]), Number(v4[2]));
  const plain = address.toLowerCase().split('%')[0] ?? '';
  return plain === '::1' || /^f[cd][0-9a-f]{2}:/.test(plain) || /^fe[89ab][0-9a-f]:/.test(plain);
}

function isPrivateV4(a: number, b: number): boolean {
  return (
    a === 10 ||
    a === 127 ||
    (a === 172 && b >= 16 && b <= 31) ||
    (a === 192 && b === 168) ||
    (a === 169 && b === 254) ||
    (a === 100 && b >= 64 && b <= 127)
  );
}

/**
 * Where cameras are served, of what can be entered on one: private addresses, or with `bind` those it names, public ones
 * too, also one that the system does not list (127.0.0.2). Loopback is told only where there is nothing else, since no
 * camera reaches it.
 */
export function servedAddresses(own: readonly OwnAddress[], bind: string | null): readonly OwnAddress[] {
  if (bind === null) return withoutLoopback(own, ({ private: isPrivate }) => isPrivate);
  if (bind === '::') return withoutLoopback(own, () => true);
  const family = bind.includes(':') ? 'IPv6' : 'IPv4';
  if (bind === '0.0.0.0') return withoutLoopback(own, (entry) => entry.family === family);
  const listed = own.find(({ address }) => address === bind);
  return [listed ?? { address: bind, family, interface: '', private: isPrivateAddress(bind), beside: false }];
}

function withoutLoopback(
  own: readonly OwnAddress[],
  isServed: (entry: OwnAddress) => boolean,
): readonly OwnAddress[] {
  const served = own.filter(isServed);
  const outside = served.filter(({ address }) => !isLoopback(address) && !needsZone(address));
  return outside.length > 0 ? outside : served.filter(({ address }) => isLoopback(address));
}

/** An fe80::/10 address says nothing without the name of an interface (RFC 4007 section 11): no camera can be given it. */
function needsZone(address: string): boolean {
  return /^fe[89ab][0-9a-f]:/i.test(address);
}

/**
 * That no camera can come, and why: loopback is all there is, or every address that leads out is public and nobody
 * asked with `bind` that one be served. `address` is the one to ask for.
 */
export function reachTroubles(own: readonly OwnAddress[], bind: string | null): readonly Finding[] {
  if (!servedAddresses(own, bind).every(({ address }) => isLoopback(address))) return [];
  const outside = bind === null ? own.filter((entry) => !entry.private) : [];
  const open = outside.find(({ family }) => family === 'IPv4') ?? outside[0];
  return open === undefined
    ? [{ code: 'line.loopback-only', args: {} }]
    : [{ code: 'line.no-private-address', args: { address: open.address } }];
}

/** Whether an address leads no further than this computer (RFC 1122 section 3.2.1.3, RFC 4291 section 2.5.3). */
export function isLoopback(address: string): boolean {
  return address === '::1' || /^(?:::ffff:)?127\./i.test(address);
}

/**
 * The one of the served addresses to enter on a camera: a private IPv4 address of a real network first, else a private
 * IPv6 one; loopback only where nothing else is there (a camera cannot reach it, but the stand-in can).
 */
export function addressForCameras(served: readonly OwnAddress[]): string {
  const four = served.filter(({ family, private: isPrivate }) => family === 'IPv4' && isPrivate);
  const outside = four.filter(({ address }) => !isLoopback(address));
  const networked = outside.filter(({ address }) => !address.startsWith('169.254.'));
  const ofNetwork = networked.find(({ beside }) => !beside) ?? networked[0];
  const six = served.find((entry) => entry.family === 'IPv6' && entry.private && !isLoopback(entry.address));
  return (ofNetwork ?? outside[0] ?? six ?? four[0] ?? served[0])?.address ?? '127.0.0.1';
}
