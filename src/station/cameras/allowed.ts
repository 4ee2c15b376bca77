import { BlockList, isIPv6 } from 'node:net';
import { type AllowRule, parseAllowRule } from './core/allow-rule.ts';

/** Hardware address of a neighbour on this computer's own networks, lower case with colons; null where nobody knows. */
export type HardwareOf = (address: string) => Promise<string | null>;

/**
 * Whether a camera may come in from an address. Without rules it may from everywhere. A hardware address is looked up
 * only where a rule asks for one; where the system does not tell, such a rule lets nobody in.
 */
export async function isAllowedFrom(
  rules: readonly string[],
  address: string,
  hardwareOf: HardwareOf,
): Promise<boolean> {
  if (rules.length === 0) return true;
  const parsed = rules.map(parseAllowRule).filter((rule) => rule !== null);
  if (isInNetworks(parsed, address)) return true;
  const hardware = parsed.flatMap((rule) => (rule.kind === 'hardware' ? [rule.hardware] : []));
  if (hardware.length === 0) return false;
  const theirs = await hardwareOf(address);
  return theirs !== null && hardware.includes(theirs);
}

function isInNetworks(rules: readonly AllowRule[], address: string): boolean {
  const networks = new BlockList();
  for (const rule of rules) {
    try {
      if (rule.kind === 'network') networks.addSubnet(rule.address, rule.prefixBits, rule.family);
    } catch {
      // Has the form of an address and is none: it lets nobody in.
    }
  }
  const [plain = ''] = address.split('%');
  return networks.check(plain, isIPv6(plain) ? 'ipv6' : 'ipv4');
}
