import { join } from 'node:path';
import { expect, test } from 'vitest';
import { hasProgram, runProgram } from '../flow/clients.ts';

/**
 * Which addresses of this computer are served. In a network namespace the loopback interface can be given any address:
 * 198.51.100.1 and 2001:db8::1 (documentation, RFC 5737 and 3849) stand for public ones, 10.9.0.1 (RFC 1918) and
 * fd00::9 (RFC 4193) for private ones.
 */
const pub = ['198.51.100.1', '2001:db8::1'] as const;
const own = ['10.9.0.1', 'fd00::9', '127.0.0.1', '::1'] as const;
const child = join(import.meta.dirname, 'ftp-guard-child.mjs');
const canUnshare = hasProgram('unshare') && hasProgram('ip') && (await inNamespace('true')).code === 0;

function inNamespace(command: string): ReturnType<typeof runProgram> {
  return runProgram('unshare', ['--net', '--map-root-user', 'sh', '-c', command]);
}

async function heardWhere(bind: string): Promise<unknown> {
  const set = [...pub, ...own].map((address) => `ip addr replace ${address} dev lo`).join('; ');
  const { stdout, stderr } = await inNamespace(
    `ip link set lo up; ${set}; exec ${process.execPath} ${child} ${bind} ${[...pub, ...own].join(' ')}`,
  );
  return stdout === '' ? stderr : JSON.parse(stdout);
}

test.skipIf(!canUnshare)('4.6 private addresses are greeted, public ones hear nothing', async () => {
  expect(await heardWhere('-')).toEqual({
    heard: {
      ...Object.fromEntries(own.map((address) => [address, '220 Ready fo'])),
      ...Object.fromEntries(pub.map((address) => [address, ''])),
    },
    codes: ['line.public-address', 'line.connected', 'line.disconnected'],
  });
});

test.skipIf(!canUnshare)(
  '4.6 an address that was named is served, also a public one, and no other',
  async () => {
    expect(await heardWhere('198.51.100.1')).toEqual({
      heard: {
        ...Object.fromEntries([...pub, ...own].map((address) => [address, 'ECONNREFUSED'])),
        '198.51.100.1': '220 Ready fo',
      },
      codes: ['line.connected', 'line.disconnected'],
    });
  },
);
