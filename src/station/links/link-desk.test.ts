import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { LinkBook } from './link-book.ts';
import { createLinkDesk } from './link-desk.ts';

test('an operator’s link is given no address in clear, a pocket’s is, and one tried in clear is not said to be in', async () => {
  const keys = await mkdtemp(join(tmpdir(), 'setside-link-desk-'));
  const links = await LinkBook.open(keys, () => 1_000_000);
  const logged: string[] = [];
  const desk = createLinkDesk({
    links,
    outside: () => ({
      follow: async () => {},
      shape: () => ({ port: 8461, trouble: null }),
      addresses: (token) =>
        [true, false].map((encrypted) => ({ url: `x://192.0.2.1/in#${token}`, encrypted })),
    }),
    jobs: { job: () => null },
    log: (_level, { code }) => logged.push(code),
  });
  const made = async (scope: 'operator' | 'pocket') =>
    desk.makeLink({ scope, name: 'a' }, { scope: 'operator', name: 'operator' });
  expect((await made('pocket')).addresses.map(({ encrypted }) => encrypted)).toEqual([true, false]);
  const { addresses } = await made('operator');
  expect(addresses.map(({ encrypted }) => encrypted)).toEqual([true]);
  const token = addresses[0]?.url.split('#')[1] ?? '';
  expect(await desk.enterLink(token, null, '192.0.2.9', 'in-clear')).toBe('ended-in-clear');
  expect(logged).toEqual(['station.link-made', 'station.link-made', 'station.link-in-clear']);
  expect((await desk.links()).links.map(({ scope }) => scope)).toEqual(['pocket']);
  links.close();
  await rm(keys, { recursive: true, force: true });
});
