import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { leadsBeside } from './beside.ts';

let root = '';
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'setside-beside-'));
  // As /sys/class/net and /proc/net/route of a Debian 12 look (from memory); a scene of the line asks a real kernel.
  for (const [name, type, isBridge] of [
    ['eth0', 1, false],
    ['docker0', 1, true],
    ['br0', 1, true],
    ['wg0', 65534, false],
  ] as const) {
    mkdirSync(join(root, 'sys/class/net', name, isBridge ? 'bridge' : '.'), { recursive: true });
    writeFileSync(join(root, 'sys/class/net', name, 'type'), `${type}\n`);
  }
  mkdirSync(join(root, 'proc/net'), { recursive: true });
  writeFileSync(
    join(root, 'proc/net/route'),
    'Iface\tDestination\tGateway\tFlags\nbr0\t00000000\t0107A8C0\t0003\ndocker0\t000011AC\t00000000\t0001\n',
  );
});
afterAll(() => rmSync(root, { recursive: true }));

test('a bridge to guests and a tunnel lead beside; a network and a bridge to a router do not', () => {
  const beside = ['eth0', 'docker0', 'br0', 'wg0'].filter((name) => leadsBeside(name, root));
  expect(beside).toEqual(['docker0', 'wg0']);
});

test('where the system tells nothing, nothing is left out', () => {
  expect(leadsBeside('en0', join(root, 'nowhere'))).toBe(false);
});
