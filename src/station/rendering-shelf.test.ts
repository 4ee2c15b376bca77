import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { RenderingShelf, restMs } from './rendering-shelf.ts';

let folder: string;
let nowMs: number;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'setside-shelf-'));
  nowMs = Date.UTC(2026, 4, 1);
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const shelf = (bytesMax: number) => new RenderingShelf({ folder, bytesMax, now: () => nowMs });

function put(name: string, bytes = 100): string {
  const path = join(folder, name);
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, new Uint8Array(bytes));
  return path;
}

const nameOf = (digit: string, file = '2-abababababababab-base.jpg'): string =>
  `${digit.repeat(2)}/${digit.repeat(64)}/${file}`;

test('what was not asked for the longest goes first, once it has rested, and its folder with it', async () => {
  const own = shelf(300);
  const paths = ['a', 'b', 'c', 'd'].map((digit) => put(nameOf(digit)));
  const [a = '', b = '', c = '', d = ''] = paths;
  for (const path of [a, b, c]) {
    await own.used(path);
    nowMs += restMs;
  }
  // At the bound nothing goes.
  expect(paths.map(existsSync)).toEqual([true, true, true, true]);
  await own.used(a);
  nowMs += restMs;
  await own.used(d);
  expect(paths.map(existsSync)).toEqual([true, false, true, true]);
  expect(existsSync(dirname(b))).toBe(false);
});

test('what may be being read stays, over the bound if need be', async () => {
  const own = shelf(100);
  const [a, b] = [put(nameOf('a')), put(nameOf('b'))];
  await own.used(a);
  nowMs += restMs - 1;
  await own.used(b);
  expect([existsSync(a), existsSync(b)]).toEqual([true, true]);
  nowMs += 1;
  await own.used(b);
  expect([existsSync(a), existsSync(b)]).toEqual([false, true]);
});

test('nothing but its own files is counted or touched', async () => {
  const others = [
    'regions/x.jpg',
    'aa/notes.txt',
    nameOf('a', 'notes.txt'),
    nameOf('a', '2-x-base.jpg.part'),
  ].map((name) => put(name, 10_000));
  const [a, b] = [put(nameOf('a')), put(nameOf('b'))];
  const own = shelf(200);
  await own.used(a);
  nowMs += restMs;
  await own.used(b);
  nowMs += restMs;
  expect([existsSync(a), existsSync(b)]).toEqual([true, true]);
  await own.used(put(nameOf('c')));
  expect(existsSync(a)).toBe(false);
  expect(others.every(existsSync)).toBe(true);
});

test('a station after this one goes on by when each was used last', async () => {
  const [a, b] = [put(nameOf('a')), put(nameOf('b'))];
  const before = shelf(1000);
  await before.used(b);
  nowMs += 2 * restMs;
  await before.used(a);
  nowMs += 2 * restMs;
  await shelf(200).used(put(nameOf('c')));
  expect([existsSync(a), existsSync(b)]).toEqual([true, false]);
});
