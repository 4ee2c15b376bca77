import { expect, test } from 'vitest';
import { type Opening, openingCommands } from './commands.ts';
import { wordsOfOpening } from './known-command.ts';
import { portsText } from './ports.ts';

const opening = (kind: Opening['kind'], more: Partial<Opening> = {}): Opening => ({
  kind,
  ports: [21, 50_000, 50_001, 50_002],
  sources: ['192.168.7.0/24'],
  chains: ['inet filter input'],
  program: '/usr/bin/node',
  ...more,
});

test('each firewall has its own words for the same ports and addresses', () => {
  // nft(8), iptables(8) with multiport, ufw(8) and firewall-cmd(1), as Debian 12 has them; the scenes run nft's.
  expect(openingCommands(opening('nftables'))).toEqual([
    'sudo nft insert rule inet filter input ip saddr { 192.168.7.0/24 } tcp dport { 21, 50000-50002 } accept',
  ]);
  expect(
    openingCommands(opening('iptables', { sources: ['10.0.0.4', '10.0.0.5'], chains: ['ip filter INPUT'] })),
  ).toEqual([
    'sudo iptables -I INPUT -p tcp -s 10.0.0.4 -m multiport --dports 21,50000:50002 -j ACCEPT',
    'sudo iptables -I INPUT -p tcp -s 10.0.0.5 -m multiport --dports 21,50000:50002 -j ACCEPT',
  ]);
  expect(openingCommands(opening('ufw'))).toEqual([
    'sudo ufw allow proto tcp from 192.168.7.0/24 to any port 21,50000:50002',
  ]);
  expect(openingCommands(opening('firewalld', { ports: [21] }))).toEqual([
    `sudo firewall-cmd --permanent --add-rich-rule='rule family="ipv4" source address="192.168.7.0/24" port port="21" protocol="tcp" accept'`,
    'sudo firewall-cmd --reload',
  ]);
});

test('each rule is answered in the words of the program that keeps it', () => {
  // iptables-legacy(8): a rule it keeps is changed by it alone. The scenes of the line run these.
  const chains = ['iptables-legacy filter INPUT', 'iptables-legacy filter studio', 'inet filter input'];
  expect(openingCommands(opening('nftables', { chains }))).toEqual([
    'sudo iptables-legacy -I INPUT -p tcp -s 192.168.7.0/24 -m multiport --dports 21,50000:50002 -j ACCEPT',
    'sudo nft insert rule inet filter input ip saddr { 192.168.7.0/24 } tcp dport { 21, 50000-50002 } accept',
  ]);
});

test('nothing is opened for nobody, nothing where nothing is shut, nothing of a firewall that nobody knows', () => {
  expect(openingCommands(opening('nftables', { ports: [] }))).toEqual([]);
  expect(openingCommands(opening('ufw', { sources: [] }))).toEqual([]);
  expect(openingCommands(opening('unknown'))).toEqual([]);
});

test('every line that is written is known again, but for those that name a program', () => {
  const chains = ['inet filter input', 'ip filter INPUT', 'iptables-legacy filter INPUT'];
  for (const kind of ['nftables', 'iptables', 'ufw', 'firewalld', 'windows'] as const) {
    const lines = openingCommands(opening(kind, { sources: ['192.168.7.0/24', '10.0.0.4'], chains }));
    expect(lines.length).toBeGreaterThan(0);
    for (const line of lines) expect([line, wordsOfOpening(line)]).toEqual([line, expect.any(Array)]);
  }
  for (const line of openingCommands(opening('macos'))) expect(wordsOfOpening(line)).toBeNull();
});

test('the words are those a shell would hand on', () => {
  expect(wordsOfOpening(openingCommands(opening('firewalld'))[0] ?? '')?.at(-1)).toBe(
    '--add-rich-rule=rule family="ipv4" source address="192.168.7.0/24" port port="21" protocol="tcp" accept',
  );
  expect(wordsOfOpening(openingCommands(opening('nftables'))[0] ?? '')?.slice(0, 4)).toEqual([
    'sudo',
    'nft',
    'insert',
    'rule',
  ]);
});

test('no other line is run, however like ours it looks', () => {
  const ours = openingCommands(opening('nftables'))[0] ?? '';
  for (const line of [
    'sudo rm -rf /',
    `${ours}; rm -rf /`,
    `${ours}\nsudo rm -rf /`,
    ours.replace('accept', 'drop'),
    ours.replace('192.168.7.0/24', '$(reboot)'),
    'sudo ufw allow proto tcp from any to any port 21',
    'sudo ufw disable',
    'sudo firewall-cmd --reload --permanent',
  ]) {
    expect(wordsOfOpening(line)).toBeNull();
  }
});

test('ports are told in ranges without gaps', () => {
  expect(portsText([50_001, 21, 50_000, 21])).toBe('21, 50000-50001');
  expect(portsText([])).toBe('');
});
