import type { AddressFacts, InterfaceFacts, NeighbourFacts, WayFacts } from '../facts.ts';
import { fieldsOf, listOf, numberOf, textOf } from './json.ts';

/** What the files of `/sys/class/net/NAME` say that `ip` does not. */
export interface LinkFacts {
  readonly wireless: boolean;
  /** A device of the machine stands behind it: no bridge, tunnel or other thing of software. */
  readonly device: boolean;
  readonly bitsPerSecond: number | null;
}

/** Valid for ever, in `ip -j address` (RFC 4862 section 5.5.3 has the same number). */
const forEver = 4_294_967_295;

/** Kinds that carry packets away to somewhere else, after ip-link(8); `tun` is what most tunnels of programs are. */
const tunnelKinds: ReadonlySet<string> = new Set([
  'tun',
  'wireguard',
  'ipip',
  'gre',
  'sit',
  'vti',
  'xfrm',
  'ppp',
]);

/**
 * The interfaces of Linux, from `ip -j -d address` and `ip -j route`; a text that is not theirs gives none. `served` is
 * asked of each address. A lifetime is how a DHCP client tells the kernel of its lease.
 */
export function interfacesOfIp(
  addresses: string,
  routes: string,
  linkOf: (name: string) => LinkFacts | null,
  served: (address: string) => boolean,
  nowMs: number,
): InterfaceFacts[] {
  const ways = listOf(routes);
  return listOf(addresses).map((entry) => {
    const name = textOf(entry, 'ifname') ?? '';
    const defaultWay = ways.find((way) => textOf(way, 'dst') === 'default' && textOf(way, 'dev') === name);
    const byDhcp = ways.some((way) => textOf(way, 'dev') === name && textOf(way, 'protocol') === 'dhcp');
    const link = linkOf(name);
    const flags = fieldsOf(entry).flags;
    const hardware = textOf(entry, 'address')?.toLowerCase() ?? null;
    return {
      name,
      kind: kindOf(entry, link),
      up: Array.isArray(flags) && flags.includes('UP') && !flags.includes('NO-CARRIER'),
      hardware: hardware !== null && /^([0-9a-f]{2}:){5}[0-9a-f]{2}$/.test(hardware) ? hardware : null,
      bitsPerSecond: link?.bitsPerSecond ?? null,
      gateway: defaultWay === undefined ? null : textOf(defaultWay, 'gateway'),
      addresses: listOf(fieldsOf(entry).addr_info).map((held) => addressOf(held, byDhcp, served, nowMs)),
    };
  });
}

function addressOf(
  held: unknown,
  byDhcp: boolean,
  served: (address: string) => boolean,
  nowMs: number,
): AddressFacts {
  const address = textOf(held, 'local') ?? '';
  const lifeS = numberOf(held, 'valid_life_time');
  const ends = lifeS === null || lifeS === forEver ? null : nowMs + lifeS * 1000;
  const scope = textOf(held, 'scope');
  const isSelf = scope === 'host' || scope === 'link' || address.startsWith('169.254.');
  return {
    address,
    family: textOf(held, 'family') === 'inet6' ? 'IPv6' : 'IPv4',
    prefixBits: numberOf(held, 'prefixlen') ?? 32,
    given: isSelf ? 'self' : ends !== null || byDhcp ? 'dealt-out' : 'fixed',
    leaseEndsMs: isSelf ? null : ends,
    served: served(address),
  };
}

function kindOf(entry: unknown, link: LinkFacts | null): InterfaceFacts['kind'] {
  if (textOf(entry, 'link_type') === 'loopback') return 'loopback';
  const kind = textOf(fieldsOf(entry).linkinfo, 'info_kind');
  const type = textOf(entry, 'link_type');
  if (kind !== null && tunnelKinds.has(kind)) return 'tunnel';
  if (type === 'none' || type === 'ppp') return 'tunnel';
  if (link?.wireless === true) return 'wireless';
  // A pair of veth is a cable to a container or a test's host.
  if (kind === 'veth' || link?.device === true) return 'wired';
  return kind === null ? 'unknown' : 'virtual';
}

/** Who was heard in the networks, from `ip -j neigh`. Entries without a hardware address were asked for in vain. */
export function neighboursOfIp(text: string): NeighbourFacts[] {
  return listOf(text).flatMap((entry) => {
    const [address, hardware, dev] = [textOf(entry, 'dst'), textOf(entry, 'lladdr'), textOf(entry, 'dev')];
    if (address === null || hardware === null || dev === null) return [];
    return [{ address, hardware: hardware.toLowerCase(), interface: dev }];
  });
}

/** How an address is sent to, from `ip -j route get`. */
export function wayOfIp(text: string): WayFacts | null {
  const [entry] = listOf(text);
  const [to, dev] = [textOf(entry, 'dst'), textOf(entry, 'dev')];
  if (to === null || dev === null) return null;
  return { to, interface: dev, source: textOf(entry, 'prefsrc'), gateway: textOf(entry, 'gateway') };
}
