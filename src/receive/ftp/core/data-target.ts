import { type Reply, reply } from './reply.ts';
import type { SessionState } from './session-state.ts';

/** Ports below are system services; nobody's data connection goes there (RFC 2577 section 3). */
const portMin = 1024;

/** Where a client wants to be dialled: PORT and EPRT, read. */
export interface DataTarget {
  readonly address: string;
  readonly port: number;
}

/** The argument of PORT: six decimal numbers, RFC 959 section 5.3.2. Null where it is none. */
export function parsePortArgument(argument: string): DataTarget | null {
  const numbers = /^(\d{1,3}),(\d{1,3}),(\d{1,3}),(\d{1,3}),(\d{1,3}),(\d{1,3})$/
    .exec(argument.trim())
    ?.slice(1)
    .map(Number);
  if (numbers === undefined || numbers.some((value) => value > 255)) return null;
  const [a, b, c, d, high, low] = numbers;
  if (high === undefined || low === undefined) return null;
  return { address: `${a}.${b}.${c}.${d}`, port: high * 256 + low };
}

/**
 * The argument of EPRT: protocol, address and port between any one delimiter (RFC 2428 section 2). `unknown-protocol`
 * for other numbers than 1 (IPv4) and 2 (IPv6), null where it is no such argument.
 */
export function parseEprtArgument(argument: string): DataTarget | 'unknown-protocol' | null {
  const delimiter = argument.charAt(0);
  if (!/[!-~]/.test(delimiter) || /[0-9A-Za-z]/.test(delimiter)) return null;
  const parts = argument.split(delimiter);
  const [, protocol, address, port] = parts;
  if (parts.length !== 5 || protocol === undefined || address === undefined || !/^\d{1,5}$/.test(port ?? ''))
    return null;
  if (protocol !== '1' && protocol !== '2') return /^\d{1,3}$/.test(protocol) ? 'unknown-protocol' : null;
  if ((protocol === '2') !== address.includes(':')) return null;
  const number = Number(port);
  return number <= 65_535 ? { address, port: number } : null;
}

/**
 * Why a target is refused, or null where it may be dialled. Only the client itself is: a server that dials others is a
 * tool for scanning them (RFC 2577 section 3). A client that gives no address (`::`, `0.0.0.0`: lftp 4.9.2 over IPv6)
 * means its own.
 */
export function refusedTarget({ address, port }: DataTarget, { peerAddress }: SessionState): Reply | null {
  if (!isUnspecified(address) && !sameAddress(address, peerAddress))
    return reply(504, 'Data goes to your own address only.');
  return port < portMin ? reply(504, `Data goes to a port of ${portMin} or above.`) : null;
}

/** RFC 4291 section 2.5.2; RFC 1122 section 3.2.1.3. */
function isUnspecified(address: string): boolean {
  return address === '0.0.0.0' || sameAddress(address, '::');
}

/** Whether two texts are one address: IPv6 may be written in several ways (RFC 4291 section 2.2). */
export function sameAddress(one: string, other: string): boolean {
  if (!one.includes(':') || !other.includes(':')) return one === other;
  const a = groupsOf(one);
  const b = groupsOf(other);
  return a !== null && b !== null && a.every((group, at) => group === b[at]);
}

/** The eight groups of an IPv6 address in hexadecimal form, zone left out; null where it is none. */
function groupsOf(text: string): number[] | null {
  const halves = (text.split('%')[0] ?? '').split('::');
  if (halves.length > 2) return null;
  const [head, tail] = halves.map((half) => (half === '' ? [] : half.split(':')));
  if (head === undefined) return null;
  const missing = 8 - head.length - (tail?.length ?? 0);
  if (tail === undefined ? missing !== 0 : missing < 1) return null;
  const groups = [
    ...head,
    ...Array.from({ length: tail === undefined ? 0 : missing }, () => '0'),
    ...(tail ?? []),
  ];
  return groups.every((group) => /^[0-9a-f]{1,4}$/i.test(group))
    ? groups.map((group) => Number.parseInt(group, 16))
    : null;
}
