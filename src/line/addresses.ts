import type { AddressFacts, InterfaceFacts } from './facts.ts';

export type AddressUse = 'private' | 'link-local' | 'shared' | 'loopback' | 'public';

/**
 * What an address is for: private (RFC 1918; RFC 4193 for IPv6), link-local (RFC 3927; RFC 4291 section 2.5.6), shared
 * (RFC 6598), loopback (RFC 1122 section 3.2.1.3; RFC 4291), and public for all else, the blocks of RFC 6890 that no
 * camera has among them.
 */
export function addressUse(address: string): AddressUse {
  const plain = plainAddress(address);
  const number = numberOfV4(plain);
  if (number === null) return v6Use(plain);
  const isIn = (network: string): boolean => isInNetwork(plain, network);
  if (isIn('127.0.0.0/8')) return 'loopback';
  if (isIn('10.0.0.0/8') || isIn('172.16.0.0/12') || isIn('192.168.0.0/16')) return 'private';
  if (isIn('169.254.0.0/16')) return 'link-local';
  return isIn('100.64.0.0/10') ? 'shared' : 'public';
}

function v6Use(address: string): AddressUse {
  if (address === '::1') return 'loopback';
  if (/^f[cd][0-9a-f]{2}:/.test(address)) return 'private';
  return /^fe[89ab][0-9a-f]:/.test(address) ? 'link-local' : 'public';
}

/** Without what only sockets add: the zone of RFC 4007, and `::ffff:` of RFC 4291 section 2.5.5.2. */
export function plainAddress(address: string): string {
  const lower = address.toLowerCase().split('%')[0] ?? '';
  return lower.startsWith('::ffff:') && lower.includes('.') ? lower.slice(7) : lower;
}

/** Whether an IPv4 address lies in a network such as `192.168.7.0/24`; false for anything that is not IPv4. */
export function isInNetwork(address: string, network: string): boolean {
  const [base = '', bits = '32'] = network.split('/');
  const [one, other] = [numberOfV4(plainAddress(address)), numberOfV4(base)];
  if (one === null || other === null) return false;
  const size = 2 ** (32 - Number(bits));
  return Math.floor(one / size) === Math.floor(other / size);
}

/** `192.168.7.0/24` of `192.168.7.31` and 24; for IPv6 the address itself with its bits, since nobody reads it so. */
export function networkOf(address: string, prefixBits: number): string {
  const number = numberOfV4(address);
  if (number === null) return `${address}/${prefixBits}`;
  const size = 2 ** (32 - prefixBits);
  const base = Math.floor(number / size) * size;
  return `${textOfV4(base)}/${prefixBits}`;
}

/** `255.255.255.0` of 24 (RFC 950). */
export function maskOf(prefixBits: number): string {
  return textOfV4(2 ** 32 - 2 ** (32 - prefixBits));
}

/** One of the computer's addresses with the interface that has it. */
export interface PlacedAddress extends AddressFacts {
  readonly interface: InterfaceFacts;
}

/** The IPv4 addresses that a camera can be given, in the order of the interfaces: served, and not of this computer alone. */
export function camerasMayEnter(interfaces: readonly InterfaceFacts[]): readonly PlacedAddress[] {
  return interfaces
    .filter(({ up }) => up)
    .flatMap((each) => each.addresses.map((address) => ({ ...address, interface: each })))
    .filter(
      ({ address, family, served }) => served && family === 'IPv4' && addressUse(address) !== 'loopback',
    );
}

/** The 32 bits of an IPv4 address; null for anything else. */
export function numberOfV4(address: string): number | null {
  const match = /^(\d{1,3})\.(\d{1,3})\.(\d{1,3})\.(\d{1,3})$/.exec(address);
  if (match === null) return null;
  const parts = match.slice(1).map(Number);
  return parts.some((part) => part > 255) ? null : parts.reduce((sum, part) => sum * 256 + part, 0);
}

function textOfV4(number: number): string {
  return [24, 16, 8, 0].map((shift) => Math.floor(number / 2 ** shift) % 256).join('.');
}
