import { mkdtemp, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { EnteredLink } from '../../serve/index.ts';
import { devicesMax, type KeptLink, linksMax, withWord, wordsOfDeviceMax } from './core/kept-link.ts';
import { LinkBook } from './link-book.ts';

let keys = '';
let nowMs = 1_000_000;
let book: LinkBook;
beforeEach(async () => {
  keys = await mkdtemp(join(tmpdir(), 'setside-links-'));
  nowMs = 1_000_000;
  book = await LinkBook.open(keys, () => nowMs);
});
afterEach(async () => {
  book.close();
  await rm(keys, { recursive: true, force: true });
});

/** Comes in over an encrypted line. */
async function enter(token: string, known: string | null): Promise<EnteredLink | null> {
  const entered = await book.enter(token, known, 'encrypted');
  if (typeof entered === 'string') throw new Error('an encrypted line was taken for one in clear');
  return entered;
}

const phone = { scope: 'pocket', name: 'phone', share: null, lastsMs: 1_000_000 } as const;
const endsMs = 2_000_000;

test('a token lets devices in, each with a secret of its own, until the link ends', async () => {
  const { link, token } = await book.make(phone);
  const one = await enter(token, null);
  const other = await enter(token, null);
  expect(one?.secret).not.toBe(other?.secret);
  expect(book.holder(one?.secret ?? '')?.who).toEqual({
    scope: 'pocket',
    name: 'phone',
    link: link.id,
    device: expect.any(String),
    share: null,
  });
  expect(book.all()).toMatchObject([{ devices: 2, lastSeen: '1970-01-01T00:16:40.000Z' }]);
  nowMs = endsMs - 1;
  expect(book.holder(one?.secret ?? '')).not.toBeNull();
  nowMs = endsMs;
  expect(book.holder(one?.secret ?? '')).toBeNull();
  expect(await enter(token, null)).toBeNull();
  expect(book.all()).toEqual([]);
});

test('a token is taken as people type it: with or without hyphens, in capitals', async () => {
  const { token } = await book.make(phone);
  expect(await enter(` ${token.slice(0, 9).toUpperCase()}-${token.slice(9)} `, null)).not.toBeNull();
  expect(await enter(token.slice(1), null)).toBeNull();
});

test('a device that comes in once more keeps its secret', async () => {
  const { token } = await book.make(phone);
  const first = await enter(token, null);
  expect((await enter(token, first?.secret ?? ''))?.secret).toBe(first?.secret);
  expect(book.all()[0]?.devices).toBe(1);
});

test('no secret stands in the file, which is this user’s alone; links outlive a restart', async () => {
  const { token } = await book.make(phone);
  const secret = (await enter(token, null))?.secret ?? '';
  const file = join(keys, 'links.json');
  const text = await readFile(file, 'utf8');
  expect(text).not.toContain(token);
  expect(text).not.toContain(secret);
  expect((await stat(file)).mode & 0o777).toBe(0o600);
  const again = await LinkBook.open(keys, () => nowMs);
  expect(again.holder(secret)?.who.name).toBe('phone');
  again.close();
});

test('an ended link is ended on the disk before anybody hears of it, and stays so', async () => {
  const { link, token } = await book.make(phone);
  const secret = (await enter(token, null))?.secret ?? '';
  const heard: string[] = [];
  book.onEnd((id) => heard.push(id));
  expect((await book.end(link.id))?.name).toBe('phone');
  expect(heard).toEqual([link.id]);
  expect(book.holder(secret)).toBeNull();
  expect(await book.end(link.id)).toBeNull();
  const again = await LinkBook.open(keys, () => nowMs);
  expect(again.all()).toEqual([]);
  again.close();
});

test('a link that reaches its end is told of like one that was ended', async () => {
  const heard: string[] = [];
  book.onEnd((id) => heard.push(id));
  const ended = new Promise<void>((resolve) => book.onEnd(() => resolve()));
  const { link } = await book.make({ ...phone, lastsMs: 20 });
  nowMs += 20;
  await ended;
  expect(heard).toEqual([link.id]);
});

test('beyond the most devices the one that came in first goes', async () => {
  const { token } = await book.make(phone);
  const secrets: string[] = [];
  for (let n = 0; n <= devicesMax; n += 1) secrets.push((await enter(token, null))?.secret ?? '');
  expect(book.holder(secrets[0] ?? '')).toBeNull();
  expect(book.holder(secrets[1] ?? '')).not.toBeNull();
  expect(book.all()[0]?.devices).toBe(devicesMax);
});

test('a device that is put out or leaves is told of by its name, the others of the link are not', async () => {
  const { token } = await book.make(phone);
  const heard: string[] = [];
  book.onDeviceOut((device) => heard.push(device));
  const secrets: string[] = [];
  for (let n = 0; n < devicesMax; n += 1) secrets.push((await enter(token, null))?.secret ?? '');
  const names = secrets.map((secret) => book.holder(secret)?.who.device);
  expect(new Set(names).size).toBe(devicesMax);
  await enter(token, null);
  expect(heard).toEqual([names[0]]);
  await book.leave(secrets[2] ?? '');
  expect(heard).toEqual([names[0], names[2]]);
  for (const secret of secrets) expect(heard).not.toContain(secret);
});

test('an operator link tried in clear lets nobody in and has ended: its secret has crossed the network', async () => {
  const { token } = await book.make({ ...phone, scope: 'operator' });
  expect(await book.enter(token, null, 'here-in-clear')).toBe('encrypted-only');
  expect(book.all()).toHaveLength(1);
  expect(await book.enter(token, null, 'in-clear')).toBe('ended-in-clear');
  expect(book.all()).toEqual([]);
  expect(await enter(token, null)).toBeNull();
  const other = await book.make(phone);
  expect(await book.enter(other.token, null, 'in-clear')).toMatchObject({ who: { scope: 'pocket' } });
});

test('there are at most so many links; one that ended makes room', async () => {
  for (let n = 0; n < linksMax - 1; n += 1) await book.make(phone);
  const { link } = await book.make(phone);
  await expect(book.make(phone)).rejects.toMatchObject({ code: 'too-many-links' });
  await book.end(link.id);
  await book.make(phone);
});

test('a device that leaves is out, the others stay', async () => {
  const { token } = await book.make(phone);
  const [one, other] = [await enter(token, null), await enter(token, null)];
  await book.leave(one?.secret ?? '');
  expect(book.holder(one?.secret ?? '')).toBeNull();
  expect(book.holder(other?.secret ?? '')).not.toBeNull();
});

test('a file that holds something else is refused, not written over', async () => {
  for (const text of ['no json', '{}', '[{"id":"x"}]', '[{"scope":"root"}]']) {
    await writeFile(join(keys, 'links.json'), text);
    await expect(LinkBook.open(keys, () => nowMs)).rejects.toMatchObject({ code: 'bad-settings' });
  }
});

test('an agreement is known as the word of its device, over a restart too', async () => {
  const { token } = await book.make(phone);
  const devices: string[] = [];
  for (const come of [1, 2]) {
    const entered = await enter(token, null);
    devices.push(book.holder(entered?.secret ?? `none ${come}`)?.who.device ?? '');
  }
  const [one = '', other = ''] = devices;
  await book.noteWord(one, 'first');
  await book.noteWord('f'.repeat(64), 'of-nobody');
  book.close();
  book = await LinkBook.open(keys, () => nowMs);
  expect([book.gaveWord(one, 'first'), book.gaveWord(other, 'first')]).toEqual([true, false]);
  expect(await readFile(join(keys, 'links.json'), 'utf8')).not.toContain('of-nobody');
});

test('a device has so many words and not one more: the oldest goes', () => {
  const secretHash = 'a'.repeat(64);
  const words = Array.from({ length: wordsOfDeviceMax - 1 }, (_, index) => `w${index}`);
  const link: KeptLink = {
    ...{ id: 'l', scope: 'pocket', name: 'phone', share: null },
    ...{ madeMs: 0, endsMs: 1, tokenHash: secretHash, devices: [{ secretHash, sinceMs: 0, words }] },
  };
  const full = withWord(link, secretHash, 'last');
  expect(full.devices[0]?.words.slice(0, 1)).toEqual(['w0']);
  const over = withWord(full, secretHash, 'more').devices[0]?.words ?? [];
  expect([over.length, over[0], over.at(-1)]).toEqual([wordsOfDeviceMax, 'w1', 'more']);
});
