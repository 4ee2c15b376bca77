/** Every way a client may write where this computer is. */
export interface ServerNames {
  /** IPv4 in dotted form, IPv6 as the system writes it; a zone (`%eth0`) is not part of a certificate. */
  readonly addresses: readonly string[];
  /** Host names, lower case. */
  readonly hosts: readonly string[];
}

/** More would make a certificate that small clients cannot hold; a computer has a handful. */
export const serverNamesMax = 40;

/** Sorted, each once, without zones and without what is no address or host name; at most {@link serverNamesMax}. */
export function tidyNames({ addresses, hosts }: ServerNames): ServerNames {
  const tidyAddresses = once(addresses.map(withoutZone)).filter((address) => addressBytes(address) !== null);
  const tidyHosts = once(hosts.map((host) => host.toLowerCase())).filter(isHostName);
  return {
    addresses: tidyAddresses.slice(0, serverNamesMax),
    hosts: tidyHosts.slice(0, serverNamesMax),
  };
}

/** Whether everything wanted is among what is held. */
export function covers(held: ServerNames, wanted: ServerNames): boolean {
  const addresses = new Set(held.addresses.map(canonicalAddress));
  return (
    wanted.addresses.every((address) => addresses.has(canonicalAddress(address))) &&
    wanted.hosts.every((host) => held.hosts.includes(host))
  );
}

/** The 4 or 16 bytes of an address (RFC 4291 section 2.2), or null where it is none. */
export function addressBytes(address: string): Uint8Array | null {
  return address.includes(':') ? v6Bytes(address) : v4Bytes(address);
}

/** One spelling for each address: tools write IPv6 in several. */
function canonicalAddress(address: string): string {
  return addressBytes(address)?.join('.') ?? address;
}

function v4Bytes(address: string): Uint8Array | null {
  const parts = address.split('.');
  const isRight = parts.length === 4 && parts.every((part) => /^\d{1,3}$/.test(part) && Number(part) <= 255);
  return isRight ? Uint8Array.from(parts, Number) : null;
}

function v6Bytes(address: string): Uint8Array | null {
  const halves = address.split('::');
  if (halves.length > 2) return null;
  const [front = [], back = []] = halves.map((half) => (half === '' ? [] : half.split(':')));
  const zeros = 8 - front.length - back.length;
  if (halves.length === 1 ? zeros !== 0 : zeros < 1) return null;
  const groups = [...front, ...Array.from({ length: zeros }, () => '0'), ...back];
  if (!groups.every((group) => /^[0-9a-f]{1,4}$/i.test(group))) return null;
  return Uint8Array.from(
    groups.flatMap((group) => [Number.parseInt(group, 16) >> 8, Number.parseInt(group, 16) & 0xff]),
  );
}

/** RFC 1123 section 2.1: letters, digits and hyphens in labels of at most 63, 253 in all. */
function isHostName(host: string): boolean {
  return (
    host.length <= 253 &&
    /^[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?(\.[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?)*$/.test(host)
  );
}

function withoutZone(address: string): string {
  return address.split('%')[0] ?? address;
}

function once(names: readonly string[]): string[] {
  return [...new Set(names)].sort();
}
