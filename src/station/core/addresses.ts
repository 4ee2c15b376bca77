import type { Finding } from '../../facts/index.ts';

/** One address of this computer, as the system lists them. */
export interface OwnAddress {
  readonly address: string;
  readonly family: 'IPv4' | 'IPv6';
  readonly interface: string;
  readonly private: boolean;
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
 * Where cameras are served: everywhere, or on the one address that was named, which the system need not list (127.0.0.2).
 * Loopback is told only where there is nothing else, since no camera reaches it.
 */
export function servedAddresses(own: readonly OwnAddress[], bind: string | null): readonly OwnAddress[] {
  if (bind === null || bind === '::') return withoutLoopback(own);
  const family = bind.includes(':') ? 'IPv6' : 'IPv4';
  if (bind === '0.0.0.0') return withoutLoopback(own.filter((entry) => entry.family === family));
  const listed = own.find(({ address }) => address === bind);
  return [listed ?? { address: bind, family, interface: '', private: isPrivateAddress(bind) }];
}

function withoutLoopback(own: readonly OwnAddress[]): readonly OwnAddress[] {
  const outside = own.filter(({ address }) => !isLoopback(address));
  return outside.length > 0 ? outside : own;
}

/** That no camera can come, where loopback is all there is. */
export function loopbackTroubles(served: readonly OwnAddress[]): readonly Finding[] {
  return served.every(({ address }) => isLoopback(address)) ? [{ code: 'line.loopback-only', args: {} }] : [];
}

/** Whether an address leads no further than this computer (RFC 1122 section 3.2.1.3, RFC 4291 section 2.5.3). */
export function isLoopback(address: string): boolean {
  return address === '::1' || /^(?:::ffff:)?127\./i.test(address);
}

/**
 * The address to enter on a camera: a private IPv4 address of a real network first; loopback only where nothing else
 * is there (a camera cannot reach it, but the stand-in can).
 */
export function addressForCameras(addresses: readonly OwnAddress[]): string {
  const candidates = addresses.filter(({ family, private: own }) => family === 'IPv4' && own);
  const outside = candidates.find(({ address }) => !isLoopback(address) && !address.startsWith('169.254.'));
  return (outside ?? candidates[0] ?? addresses[0])?.address ?? '127.0.0.1';
}
