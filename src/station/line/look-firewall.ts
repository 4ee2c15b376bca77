import { readFile } from 'node:fs/promises';
import {
  type FirewallFacts,
  fateOf,
  type LineSystem,
  legacyTable,
  type Packet,
  parseIptables,
  parseNft,
  type RuleSet,
  type WallFacts,
  type WallState,
} from '../../line/index.ts';
import { outputOf } from './run-program.ts';

/** Ways by which a camera's first packet comes to a door; the port is filled in. */
export type Approach = Omit<Packet, 'port'>;

/** What this computer's own firewall does with new connections to these ports; the worst of all approaches counts. */
export async function lookFirewall(
  system: LineSystem,
  ports: readonly number[],
  approaches: readonly Approach[],
): Promise<FirewallFacts> {
  switch (system) {
    case 'linux':
      return onLinux(ports, approaches);
    case 'macos':
      return asWhole(
        'macos',
        ports,
        /disabled/.exec((await outputOf(socketFilter, ['--getglobalstate'])) ?? '') !== null,
      );
    case 'windows':
      return asWhole('windows', ports, await windowsLetsIn());
    case 'other':
      return asWhole('unknown', ports, false);
  }
}

const socketFilter = '/usr/libexec/ApplicationFirewall/socketfilterfw';

/** Off, or with a rule of ours. The words are those of an English Windows, from memory; others count as not read. */
async function windowsLetsIn(): Promise<boolean> {
  const [profile, rule] = await Promise.all([
    outputOf('netsh', ['advfirewall', 'show', 'currentprofile', 'state']),
    outputOf('netsh', ['advfirewall', 'firewall', 'show', 'rule', 'name=Setside']),
  ]);
  return /State\s+OFF/.test(profile ?? '') || /Enabled:\s+Yes/.test(rule ?? '');
}

/** A firewall of which only is known whether it lets us in. */
function asWhole(kind: FirewallFacts['kind'], ports: readonly number[], open: boolean): FirewallFacts {
  const state: WallState = open ? 'open' : 'unknown';
  return { kind, read: open, ports: ports.map((port) => ({ port, state, chain: null })) };
}

async function onLinux(ports: readonly number[], approaches: readonly Approach[]): Promise<FirewallFacts> {
  const [nft, iptables, legacy, ufwConf, firewalld] = await Promise.all([
    outputOf('nft', ['-j', 'list', 'ruleset']),
    outputOf('iptables-save', []),
    // The older kernel interface: nft tells nothing of its rules, and both are asked of each packet.
    outputOf('iptables-legacy-save', []),
    readFile('/etc/ufw/ufw.conf', 'utf8').catch(() => ''),
    outputOf('firewall-cmd', ['--state']),
  ]);
  const told = nft === null ? null : parseNft(nft);
  const byIptables = iptables === null ? [] : parseIptables(iptables);
  const set: RuleSet =
    told === null
      ? byIptables
      : [
          ...told.set.filter(({ table }) => table !== 'ip filter' || !told.halfTold.includes(table)),
          ...(told.halfTold.includes('ip filter') ? byIptables : []),
          ...(legacy === null ? [] : parseIptables(legacy, legacyTable)),
        ];
  const read = told !== null || iptables !== null;
  const inForce = set.some(
    ({ hook, rules }) => hook !== null && (rules.length > 0 || hook.policy === 'drop'),
  );
  const kind = !read
    ? 'unknown'
    : !inForce
      ? 'none'
      : kindOf(ufwConf, firewalld, told === null || told.halfTold.includes('ip filter'));
  return {
    kind: read ? kind : kindOf(ufwConf, firewalld, false, 'unknown'),
    read,
    ports: ports.map((port) =>
      read ? wallOf(set, port, approaches) : { port, state: 'unknown', chain: null },
    ),
  };
}

function kindOf(
  ufwConf: string,
  firewalld: string | null,
  isIptables: boolean,
  otherwise: FirewallFacts['kind'] = 'nftables',
): FirewallFacts['kind'] {
  if (/^ENABLED=yes/m.test(ufwConf)) return 'ufw';
  if (firewalld?.trim() === 'running') return 'firewalld';
  return isIptables ? 'iptables' : otherwise;
}

const worst: readonly WallState[] = ['shut', 'unknown', 'open'];

function wallOf(set: RuleSet, port: number, approaches: readonly Approach[]): WallFacts {
  const fates = approaches.map((approach) => fateOf(set, { ...approach, port }));
  const [fate = { state: 'open' as const, chain: null }] = fates.sort(
    (one, other) => worst.indexOf(one.state) - worst.indexOf(other.state),
  );
  return { port, state: fate.state, chain: fate.chain };
}
