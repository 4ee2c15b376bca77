import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { fateOf, parseIptables, parseNft } from '../../src/line/index.ts';
import { hasProgram } from '../flow/clients.ts';
import { canMakeHosts, firstLineOf, type Host, Network } from '../netns.ts';

const ports = [21, 22, 990, 2222, 50_000, 50_050];
const chain = (rules: string, policy = 'accept', before = ''): string =>
  `table inet filter {\n${before}\nchain input {\ntype filter hook input priority 0; policy ${policy};\n${rules}\n}\n}\n`;

/** Rules as people and distributions write them; `ip saddr 10.77.0.20` is the one who knocks. */
const nft: readonly (readonly [string, string])[] = [
  ['nothing', ''],
  ['an empty chain', chain('')],
  ['all is dropped', chain('ct state established,related accept', 'drop')],
  ['one port and a range are opened', chain('tcp dport { 21, 50000-50099 } accept', 'drop')],
  [
    'a named set',
    chain(
      'tcp dport @open accept',
      'drop',
      'set open { type inet_service\nflags interval\nelements = { 22, 50000-50040 } \n}',
    ),
  ],
  ['a verdict map', chain('tcp dport vmap { 21 : drop, 22 : accept, 990 : drop }', 'accept')],
  [
    'a map of states first',
    chain(
      'ct state vmap { established : accept, related : accept, invalid : drop }\ntcp dport 2222 accept',
      'drop',
    ),
  ],
  ['rejected instead of dropped', chain('tcp dport 21 reject with tcp reset\ntcp dport 22 reject')],
  [
    'only from its network',
    chain('ip saddr 10.77.0.0/24 tcp dport 21 accept\nip saddr 10.78.0.0/24 tcp dport 22 accept', 'drop'),
  ],
  [
    'only from some addresses',
    chain(
      'ip saddr { 10.77.0.1, 10.77.0.20 } tcp dport 21 accept\nip saddr 10.77.0.30-10.77.0.40 tcp dport 22 accept',
      'drop',
    ),
  ],
  ['not from it', chain('ip saddr != 10.77.0.20 accept\ntcp dport != 21 accept', 'drop')],
  [
    'only by an interface',
    chain('iifname "eth*" tcp dport 21 accept\niifname "wlan*" tcp dport 22 accept\niif "lo" accept', 'drop'),
  ],
  [
    'a chain that is jumped to',
    chain(
      'jump doors\ntcp dport 990 drop',
      'accept',
      'chain doors {\ntcp dport 21 drop\ntcp dport 990 return\ntcp dport 22 accept\n}',
    ),
  ],
  [
    'a chain that is gone to',
    chain(
      'tcp dport 21-990 goto doors\ntcp dport 2222 drop',
      'drop',
      'chain doors {\ntcp dport 22 accept\n}',
    ),
  ],
  [
    'another protocol’s rules',
    chain('udp dport 21 drop\nip protocol icmp drop\nmeta l4proto udp drop\nmeta nfproto ipv6 drop'),
  ],
  [
    'a second chain has the last word',
    `${chain('accept')}table ip late { chain in { type filter hook input priority 10; policy accept;\ntcp dport 21 drop; }; }\n`,
  ],
  [
    'a chain of IPv6 has no word',
    'table ip6 x { chain in { type filter hook input priority 0; policy drop; }; }\n',
  ],
  [
    'chains of other ways have no word',
    'table ip x { chain out { type filter hook forward priority 0; policy drop; }; }\n',
  ],
  [
    'counted, logged, then dropped',
    chain('tcp dport 21 counter log prefix "x" drop\ntcp flags syn / fin,syn,rst,ack tcp dport 22 drop'),
  ],
  [
    'to an address',
    chain(
      'ip daddr 10.77.0.1 tcp dport 21 drop\nip daddr 10.77.0.9 tcp dport 22 drop\nfib daddr type local tcp dport 990 drop',
    ),
  ],
];

const iptables: readonly (readonly [string, readonly string[]])[] = [
  [
    'what multiport opens',
    ['-P INPUT DROP', '-A INPUT -p tcp -m multiport --dports 21,50000:50040 -j ACCEPT'],
  ],
  [
    'states and comments',
    [
      '-P INPUT DROP',
      '-A INPUT -m conntrack --ctstate ESTABLISHED -j ACCEPT',
      '-A INPUT -p tcp -m comment --comment "doors of mine" -m tcp --dport 22 -j ACCEPT',
    ],
  ],
  [
    'rejected, and not',
    [
      '-A INPUT -p tcp --dport 21 -j REJECT',
      '-A INPUT ! -s 10.77.0.0/24 -j DROP',
      '-A INPUT -p tcp -m tcp ! --dport 22 -s 10.77.0.20 -j DROP',
    ],
  ],
  [
    'chains of one’s own',
    [
      '-N DOORS',
      '-A DOORS -p tcp --dport 21 -j DROP',
      '-A DOORS -p tcp --dport 22 -j RETURN',
      '-A DOORS -p tcp --dport 990 -j ACCEPT',
      '-A INPUT -i eth+ -j DOORS',
      '-A INPUT -p tcp --dport 22 -j DROP',
      '-A INPUT -p tcp --dport 990 -j DROP',
    ],
  ],
];

/** The kernel is the judge: what it lets a real connection do is what is said of it before. */
describe.skipIf(!(await canMakeHosts()) || !hasProgram('python3'))(
  'what a firewall does with a connection',
  () => {
    let network: Network;
    let station: Host;
    let camera: Host;

    beforeAll(async () => {
      network = await Network.make();
      station = await network.addHost('wall', '10.77.0.1');
      camera = await network.addHost('knock', '10.77.0.20');
      expect(await firstLineOf(station.start('python3', ['-u', '-c', listeners]))).toBe('ready');
    });

    afterAll(() => network.close());

    const packet = (
      port: number,
    ): { interface: string; source: string; destination: string; port: number } => ({
      interface: 'eth0',
      source: '10.77.0.20',
      destination: '10.77.0.1',
      port,
    });

    /** The ports that a real connection gets through to. */
    async function reached(): Promise<number[]> {
      const run = await camera.run('python3', ['-c', knocks]);
      expect(run.code, run.stderr).toBe(0);
      return JSON.parse(run.stdout);
    }

    test.each(nft)('nftables, %s', async (_what, rules) => {
      await station.run('nft', ['flush', 'ruleset']);
      const made = await station.run('nft', ['-f', '-'], { input: rules });
      expect(made.code, made.stderr).toBe(0);
      const told = parseNft((await station.run('nft', ['-j', 'list', 'ruleset'])).stdout);
      const states = ports.map((port) => [port, fateOf(told?.set ?? [], packet(port)).state] as const);
      const open = await reached();
      expect(states).toEqual(ports.map((port) => [port, open.includes(port) ? 'open' : 'shut']));
    });

    describe.skipIf(!hasProgram('iptables'))('by iptables', () => {
      test.each(iptables)('iptables, %s', async (_what, rules) => {
        await station.run('nft', ['flush', 'ruleset']);
        for (const rule of rules) {
          const made = await station.run('sh', ['-c', `iptables ${rule}`]);
          expect(made.code, made.stderr).toBe(0);
        }
        const set = parseIptables((await station.run('iptables-save', [])).stdout);
        const states = ports.map((port) => [port, fateOf(set, packet(port)).state] as const);
        const open = await reached();
        expect(states).toEqual(ports.map((port) => [port, open.includes(port) ? 'open' : 'shut']));
      });
    });

    test('a rule that asks for chance is told as not known', async () => {
      await station.run('nft', ['flush', 'ruleset']);
      await station.run('nft', ['-f', '-'], {
        input: chain(
          'tcp dport 21 numgen random mod 100 < 3 drop\ntcp dport 22 limit rate 1/minute accept\ntcp dport 22 drop',
        ),
      });
      const set = parseNft((await station.run('nft', ['-j', 'list', 'ruleset'])).stdout)?.set ?? [];
      expect([21, 22, 990].map((port) => fateOf(set, packet(port)))).toEqual([
        { state: 'unknown', chain: 'inet filter input' },
        { state: 'unknown', chain: 'inet filter input' },
        { state: 'open', chain: null },
      ]);
    });
  },
);

const listeners = `
import socket, time
held = []
for port in ${JSON.stringify(ports)}:
    s = socket.socket(); s.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    s.bind(('0.0.0.0', port)); s.listen(64); held.append(s)
print('ready')
time.sleep(100000)
`;

const knocks = `
import json, socket
from concurrent.futures import ThreadPoolExecutor
def knock(port):
    s = socket.socket(); s.settimeout(2.5)
    try:
        s.connect(('10.77.0.1', port)); return port
    except OSError:
        return None
    finally:
        s.close()
with ThreadPoolExecutor(8) as pool:
    print(json.dumps([p for p in pool.map(knock, ${JSON.stringify(ports)}) if p]))
`;
