import { contextTag, der, sequenceTag } from './der.ts';
import { addressBytes, type ServerNames } from './server-names.ts';

/**
 * What the root may vouch for: private networks and local names, nothing of the internet. Whoever imports the root
 * thereby trusts this station with the studio's network and with nothing else, even if its key is stolen.
 *
 * The ranges are those that the station serves without being told to: RFC 1918, RFC 6598, RFC 3927, loopback, RFC 4193,
 * RFC 4291 link-local. The names are those that never leave a local network: RFC 6761 (localhost), RFC 6762 (local),
 * RFC 8375 (home.arpa), `internal` (reserved by ICANN for private use, 2024).
 */
const ranges: readonly (readonly [base: string, prefixBits: number])[] = [
  ['10.0.0.0', 8],
  ['172.16.0.0', 12],
  ['192.168.0.0', 16],
  ['100.64.0.0', 10],
  ['169.254.0.0', 16],
  ['127.0.0.0', 8],
  ['fc00::', 7],
  ['fe80::', 10],
  ['::1', 128],
];
const domains: readonly string[] = ['localhost', 'local', 'home.arpa', 'internal'];

/** The names among these that the root may vouch for, in the same order. */
export function withinTerritory({ addresses, hosts }: ServerNames): ServerNames {
  return {
    addresses: addresses.filter((address) => ranges.some((range) => isWithin(address, range))),
    hosts: hosts.filter((host) => domains.some((domain) => host === domain || host.endsWith(`.${domain}`))),
  };
}

/** The value of the NameConstraints extension, RFC 5280 section 4.2.1.10: permittedSubtrees of the above. */
export function territoryExtension(): Uint8Array<ArrayBuffer> {
  const dnsName = contextTag(2, 'primitive');
  const iPAddress = contextTag(7, 'primitive');
  const subtrees = [
    ...domains.map((domain) => der(dnsName, new TextEncoder().encode(domain))),
    ...ranges.map(([base, bits]) => {
      const address = bytesOf(base);
      return der(iPAddress, address, mask(address.length, bits));
    }),
  ].map((base) => der(sequenceTag, base));
  return der(sequenceTag, der(contextTag(0, 'constructed'), ...subtrees));
}

function isWithin(address: string, [base, bits]: readonly [string, number]): boolean {
  const bytes = addressBytes(address);
  const first = bytesOf(base);
  if (bytes === null || bytes.length !== first.length) return false;
  const kept = mask(first.length, bits);
  return bytes.every((byte, at) => (byte & (kept[at] ?? 0)) === first[at]);
}

function bytesOf(base: string): Uint8Array {
  const bytes = addressBytes(base);
  if (bytes === null) throw new Error(`${base} is no address`);
  return bytes;
}

function mask(count: number, bits: number): Uint8Array {
  return Uint8Array.from({ length: count }, (_, at) => {
    const left = Math.min(8, Math.max(0, bits - at * 8));
    return (0xff << (8 - left)) & 0xff;
  });
}
