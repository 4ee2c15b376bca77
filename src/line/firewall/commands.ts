import type { FirewallFacts } from '../facts.ts';
import { portRanges, portsText } from './ports.ts';

export interface Opening {
  readonly kind: FirewallFacts['kind'];
  readonly ports: readonly number[];
  /** Addresses and networks of cameras: `192.168.7.0/24`. */
  readonly sources: readonly string[];
  /** The chains that shut them, where rules were read: `inet filter input`. */
  readonly chains: readonly string[];
  /** The program that listens, for a firewall that asks about programs. */
  readonly program: string;
}

/**
 * Lines for a terminal that let exactly these addresses in at exactly these ports: nft(8), iptables(8), ufw(8),
 * firewall-cmd(1), `netsh advfirewall` and `socketfilterfw` (the last two from memory). None where nothing is shut, or the
 * firewall is one that nobody here knows.
 */
export function openingCommands(opening: Opening): readonly string[] {
  const { kind, ports, sources, chains, program } = opening;
  if (ports.length === 0 || sources.length === 0) return [];
  switch (kind) {
    case 'ufw':
      return sources.map(
        (source) => `sudo ufw allow proto tcp from ${source} to any port ${portsText(ports, ':', ',')}`,
      );
    case 'firewalld':
      return [...firewalldRules(ports, sources), 'sudo firewall-cmd --reload'];
    case 'iptables':
      return sources.map(
        (source) =>
          `sudo iptables -I INPUT -p tcp -s ${source} -m multiport --dports ${portsText(ports, ':', ',')} -j ACCEPT`,
      );
    case 'nftables':
      return chains.map(
        (chain) =>
          `sudo nft insert rule ${chain} ip saddr { ${sources.join(', ')} } tcp dport { ${portsText(ports)} } accept`,
      );
    case 'windows':
      return [
        `netsh advfirewall firewall add rule name=Setside dir=in action=allow protocol=TCP localport=${portsText(ports, '-', ',')} remoteip=${sources.join(',')}`,
      ];
    case 'macos':
      return [
        `sudo /usr/libexec/ApplicationFirewall/socketfilterfw --add ${program}`,
        `sudo /usr/libexec/ApplicationFirewall/socketfilterfw --unblockapp ${program}`,
      ];
    case 'none':
    case 'unknown':
      return [];
  }
}

function firewalldRules(ports: readonly number[], sources: readonly string[]): string[] {
  return sources.flatMap((source) =>
    portRanges(ports).map(({ from, to }) => {
      const range = from === to ? String(from) : `${from}-${to}`;
      return `sudo firewall-cmd --permanent --add-rich-rule='rule family="ipv4" source address="${source}" port port="${range}" protocol="tcp" accept'`;
    }),
  );
}
