import { maskOf, type PlacedAddress } from './addresses.ts';
import type { LineSystem } from './facts.ts';

/**
 * Lines for a terminal that give this computer a fixed address: on Linux beside what it has, until it is started again
 * (ip-address(8)); on macOS and Windows in the place of what was dealt out (networksetup, netsh; from memory).
 */
export function fixAddressCommands(
  system: LineSystem,
  { prefixBits, interface: { name, kind, gateway } }: PlacedAddress,
  address: string,
): readonly string[] {
  const way = gateway === null ? '' : ` ${gateway}`;
  switch (system) {
    case 'linux':
      return [`sudo ip address add ${address}/${prefixBits} dev ${name}`];
    case 'macos':
      return [
        `sudo networksetup -setmanual ${kind === 'wireless' ? 'Wi-Fi' : 'Ethernet'} ${address} ${maskOf(prefixBits)}${way}`,
      ];
    case 'windows':
      return [`netsh interface ip set address name="${name}" static ${address} ${maskOf(prefixBits)}${way}`];
    case 'other':
      return [];
  }
}
