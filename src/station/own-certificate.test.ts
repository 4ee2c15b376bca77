import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { Closers } from './closers.ts';
import { openOwnCertificate } from './own-certificate.ts';

let keys = '';
let closers = new Closers(() => {});
beforeEach(async () => {
  keys = await mkdtemp(join(tmpdir(), 'setside-keys-'));
  closers = new Closers(() => {});
});
afterEach(async () => {
  await closers.closeAll();
  await rm(keys, { recursive: true, force: true });
});

test('a station that may go without goes without, and says why and what helps', async () => {
  await writeFile(join(keys, 'authority.pem'), 'no key');
  const { authority, troubles } = await openOwnCertificate(keys, true, Date.now, () => {}, closers);
  expect(authority).toBeNull();
  expect(troubles).toMatchObject([{ code: 'station.no-certificate' }]);
});

test('a station that must speak TLS does not start without', async () => {
  await writeFile(join(keys, 'authority.pem'), 'no key');
  const opened = openOwnCertificate(keys, false, Date.now, () => {}, closers);
  await expect(opened).rejects.toMatchObject({ code: 'authority-unreadable' });
});

test('the certificate holds what cameras enter: loopback for the stand-in, and this computer by name', async () => {
  const { authority } = await openOwnCertificate(keys, true, Date.now, () => {}, closers);
  expect(authority).not.toBeNull();
  expect(await authority?.refresh({ addresses: ['127.0.0.1'], hosts: ['localhost'] })).toBe(false);
});
