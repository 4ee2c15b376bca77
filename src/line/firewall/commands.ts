import type { FirewallFacts } from '../facts.ts';
import { legacyTable } from './iptables.ts';
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
    case 'nftables':
      return byProgram(kind, ports, sources, chains);
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

/**
 * Rules of three programs may stand beside each other, and each changes its own alone: nft knows nothing of what
 * iptables-legacy keeps. A line at the head of INPUT comes before every drop that INPUT leads to.
 */
function byProgram(
  kind: 'iptables' | 'nftables',
  ports: readonly number[],
  sources: readonly string[],
  chains: readonly string[],
): readonly string[] {
  const lines = chains.flatMap((chain) => {
    if (chain.startsWith(`${legacyTable} `)) return atHead('iptables-legacy', ports, sources);
    if (kind === 'iptables' && chain.startsWith('ip filter ')) return atHead('iptables', ports, sources);
    return [
      `sudo nft insert rule ${chain} ip saddr { ${sources.join(', ')} } tcp dport { ${portsText(ports)} } accept`,
    ];
  });
  return [...new Set(lines)];
}

function atHead(program: string, ports: readonly number[], sources: readonly string[]): readonly string[] {
  const dports = portsText(ports, ':', ',');
  return sources.map(
    (source) => `sudo ${program} -I INPUT -p tcp -s ${source} -m multiport --dports ${dports} -j ACCEPT`,
  );
}

function firewalldRules(ports: readonly number[], sources: readonly string[]): string[] {
  return sources.flatMap((source) =>
    portRanges(ports).map(({ from, to }) => {
      const range = from === to ? String(from) : `${from}-${to}`;
      return `sudo firewall-cmd --permanent --add-rich-rule='rule family="ipv4" source address="${source}" port port="${range}" protocol="tcp" accept'`;
    }),
  );
}
