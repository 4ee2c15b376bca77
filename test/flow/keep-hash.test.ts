import { createHash } from 'node:crypto';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { HashPool } from '../../src/keep/hash-pool.ts';

/** The worker as built; `npm test` builds before it tests. */
const entry = new URL('../../dist/keep/hash-worker.js', import.meta.url);
const pool = new HashPool(entry, 2);
let folder = '';

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'setside-hash-'));
});

afterAll(async () => {
  await pool.close();
  await rm(folder, { recursive: true });
});

const platform = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

// NIST, "Examples with Intermediate Values", SHA-256 (FIPS 180-4): one block, two blocks; and the empty message.
test.each([
  ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
  [
    'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
    '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
  ],
  ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
])('K9.1 NIST example %j', async (text, expected) => {
  const session = pool.begin();
  await session.update(new TextEncoder().encode(text));
  expect(await session.digest()).toBe(expected);
});

test('K9.1 shared memory is read where it lies: the update is done when it settles, not before', async () => {
  const shared = new Uint8Array(new SharedArrayBuffer(1024 * 1024));
  const session = pool.begin();
  const reference = createHash('sha256');
  for (let round = 0; round < 20; round++) {
    shared.fill(round);
    reference.update(Uint8Array.from(shared));
    await session.update(shared);
  }
  expect(await session.digest()).toBe(reference.digest('hex'));
});

test('K9.1 a view into the middle of shared memory is that view and no more', async () => {
  const shared = new Uint8Array(new SharedArrayBuffer(100)).map((_, i) => i);
  const part = new Uint8Array(new SharedArrayBuffer(100));
  part.set(shared);
  const session = pool.begin();
  await session.update(part.subarray(10, 20));
  expect(await session.digest()).toBe(platform(Uint8Array.from({ length: 10 }, (_, i) => i + 10)));
});

test('K9.1 many files at once keep to themselves, updates in order without waiting', async () => {
  const digests = await Promise.all(
    Array.from({ length: 12 }, async (_, file) => {
      const session = pool.begin();
      const pieces = Array.from({ length: 30 }, (_, i) => new Uint8Array(1000 + i).fill(file * 31 + i));
      for (const piece of pieces) session.update(piece).catch(() => {});
      return [await session.digest(), platform(Buffer.concat(pieces))];
    }),
  );
  for (const [ours, expected] of digests) expect(ours).toBe(expected);
});

test('K9.1 what a file already holds is read by the worker, and what comes meanwhile waits its turn', async () => {
  const held = Buffer.alloc(3_000_000, 5);
  const path = join(folder, 'held');
  await writeFile(path, Buffer.concat([held, Buffer.from('not part of it')]));
  const session = pool.begin();
  const steps = [session.updateFromFile(path, held.length), session.update(Buffer.from('more'))];
  expect(await session.digest()).toBe(platform(Buffer.concat([held, Buffer.from('more')])));
  await Promise.all(steps);
});

test('K9.2 a file that is shorter than it should be fails its session alone', async () => {
  const path = join(folder, 'short');
  await writeFile(path, 'short');
  const session = pool.begin();
  const other = pool.begin();
  await other.update(Buffer.from('abc'));
  await expect(session.updateFromFile(path, 6)).rejects.toMatchObject({ code: 'hash-lost' });
  await expect(session.digest()).rejects.toMatchObject({ code: 'hash-lost' });
  expect(await other.digest()).toBe(platform(Buffer.from('abc')));
});

test('K9.2 a worker that ends fails what it had, and the next file gets a new one', async () => {
  const one = new HashPool(entry, 1);
  const session = one.begin();
  await session.update(Buffer.from('abc'));
  await one.close();
  await expect(session.update(Buffer.from('d'))).rejects.toMatchObject({ code: 'hash-lost' });
  await expect(session.digest()).rejects.toMatchObject({ code: 'hash-lost' });
  const next = one.begin();
  await next.update(Buffer.from('abc'));
  expect(await next.digest()).toBe(platform(Buffer.from('abc')));
  await one.close();
});
