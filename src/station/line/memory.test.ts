import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { Doubles } from './doubles.ts';
import { EnteredBook } from './entered-book.ts';

let home: string;
const failed = (thrown: unknown): void => {
  throw thrown;
};

beforeEach(async () => {
  home = await mkdtemp(join(tmpdir(), 'setside-line-memory-'));
});
afterEach(() => rm(home, { recursive: true, force: true }));

test('by which address a camera came is known after a restart', async () => {
  const book = await EnteredBook.open(home, failed);
  expect(book.of('Cam-A')).toBeNull();
  const login = { local: '192.168.7.2', address: '192.168.7.20', atMs: 5 };
  book.note('Cam-A', login);
  await book.close();
  const again = await EnteredBook.open(home, failed);
  expect(again.of('Cam-A')).toEqual(login);
});

test('a file that was cut or written by hand costs what it said and no more', async () => {
  for (const text of [
    '',
    '{"Cam-A":',
    'null',
    '[]',
    '{"Cam-A":{"local":3},"Cam-B":{"local":"a","address":"b","atMs":1}}',
  ]) {
    await writeFile(join(home, 'entered.json'), text);
    const book = await EnteredBook.open(home, failed);
    expect(book.of('Cam-A')).toBeNull();
    book.note('Cam-A', { local: 'a', address: 'b', atMs: 1 });
    await book.close();
    expect(JSON.parse(await readFile(join(home, 'entered.json'), 'utf8'))['Cam-A'].local).toBe('a');
  }
});

test('an address that two devices answer for in turn is told; one that went from one to the other is not', () => {
  const doubles = new Doubles();
  const heard = (hardware: string, atMs: number): void =>
    doubles.note([{ address: '192.168.7.20', hardware, interface: 'eth0' }], atMs);
  heard('a', 0);
  heard('b', 1000);
  expect(doubles.all(1000)).toEqual([]);
  heard('a', 2000);
  const both = { address: '192.168.7.20', hardware: ['a', 'b'], withinMs: 600_000 };
  expect(doubles.all(2000)).toEqual([{ ...both, otherMs: 1000 }]);
  // One of them alone goes on: how long it has is told, until the other is forgotten.
  heard('a', 300_000);
  expect(doubles.all(300_000)).toEqual([{ ...both, otherMs: 299_000 }]);
  // Ten minutes on it is forgotten.
  heard('a', 602_000);
  expect(doubles.all(602_000)).toEqual([]);
});
