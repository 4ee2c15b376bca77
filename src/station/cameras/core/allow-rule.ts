/** Where a camera may come from, out of what a person wrote. */
export type AllowRule =
  | { readonly kind: 'hardware'; readonly hardware: string }
  | {
      readonly kind: 'network';
      readonly address: string;
      readonly prefixBits: number;
      readonly family: 'ipv4' | 'ipv6';
    };

const hardwarePattern = /^[0-9a-f]{2}([:-][0-9a-f]{2}){5}$/i;
const ipv4Pattern = /^(\d{1,3})\.(\d{1,3})\.(\d{1,3})\.(\d{1,3})$/;

/**
 * One address (`192.168.7.20`, `fd00::12`), a network in the notation of RFC 4632 section 3.1 (`192.168.7.0/24`), or a
 * hardware address (`3c:22:fb:01:02:03`), which stays the same when the router deals out another. Null for anything else.
 */
export function parseAllowRule(text: string): AllowRule | null {
  const written = text.trim();
  if (hardwarePattern.test(written))
    return { kind: 'hardware', hardware: written.toLowerCase().replaceAll('-', ':') };
  const [address = '', bits, ...rest] = written.split('/');
  const family = familyOf(address);
  if (family === null || rest.length > 0) return null;
  const bitsMax = family === 'ipv4' ? 32 : 128;
  const prefixBits = bits === undefined ? bitsMax : /^\d{1,3}$/.test(bits) ? Number(bits) : Number.NaN;
  return prefixBits >= 0 && prefixBits <= bitsMax ? { kind: 'network', address, prefixBits, family } : null;
}

function familyOf(address: string): 'ipv4' | 'ipv6' | null {
  const match = ipv4Pattern.exec(address);
  if (match !== null) return match.slice(1).every((part) => Number(part) <= 255) ? 'ipv4' : null;
  return isIpv6(address) ? 'ipv6' : null;
}

/** The two hexadecimal forms of RFC 4291 section 2.2: eight groups, or fewer around one `::`. */
function isIpv6(address: string): boolean {
  const [left = '', right, ...rest] = address.split('::');
  if (rest.length > 0) return false;
  const groups = [left, right ?? ''].flatMap((part) => (part === '' ? [] : part.split(':')));
  if (!groups.every((group) => /^[0-9a-f]{1,4}$/i.test(group))) return false;
  return right === undefined ? groups.length === 8 : groups.length < 8;
}
