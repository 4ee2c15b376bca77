import type { InterfaceFacts } from '../facts.ts';

/** What macOS prints about one interface. The forms are from memory; what does not fit is left as it was known. */
export interface MacosWords {
  /** `ipconfig getpacket en0`: the DHCP answer it lives by, empty where there is none. */
  readonly packet: string;
  /** `networksetup -listallhardwareports`. */
  readonly ports: string;
  /** `route -n get -ifscope en0 default`. */
  readonly route: string;
}

/** The same interface with kind, gateway, and what was dealt out. */
export function macosDetails(plain: InterfaceFacts, words: MacosWords): InterfaceFacts {
  const dealt = /^yiaddr = (\S+)$/m.exec(words.packet)?.[1] ?? null;
  return {
    ...plain,
    kind: plain.kind === 'loopback' ? 'loopback' : kindOf(plain.name, words.ports),
    gateway: /^\s*gateway: (\d+(?:\.\d+){3})$/m.exec(words.route)?.[1] ?? null,
    addresses: plain.addresses.map((held) =>
      held.given === 'self' || held.family === 'IPv6'
        ? held
        : { ...held, given: held.address === dealt ? 'dealt-out' : 'fixed' },
    ),
  };
}

function kindOf(name: string, ports: string): InterfaceFacts['kind'] {
  if (/^(utun|ipsec|ppp|tun)\d/.test(name)) return 'tunnel';
  const port = portOf(name, ports);
  if (port === null) return /^(bridge|vmenet|awdl|llw|anpi)\d/.test(name) ? 'virtual' : 'unknown';
  return /wi-?fi|airport/i.test(port) ? 'wireless' : 'wired';
}

/** The name of the service that `networksetup` takes: `Wi-Fi`. */
export function portOf(name: string, ports: string): string | null {
  const blocks = ports.split(/\n\s*\n/);
  const mine = blocks.find((block) => new RegExp(`^Device: ${name}$`, 'm').test(block));
  return mine === undefined ? null : (/^Hardware Port: (.+)$/m.exec(mine)?.[1] ?? null);
}
