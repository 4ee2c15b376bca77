import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { readMetadataSheetText } from '../../deliver/index.ts';
import { SheetBook } from './sheet-book.ts';

let home: string;
let book: SheetBook;

beforeEach(async () => {
  home = await mkdtemp(join(tmpdir(), 'setside-sheets-'));
  book = new SheetBook(home);
});

afterEach(() => rm(home, { recursive: true, force: true }));

const sheet = (title: string, caption: string) =>
  ({ version: 1, title, all: { caption }, shots: {}, frames: {} }) as const;

test('a sheet is kept under its title, which case does not tell apart, and is forgotten by it', async () => {
  expect(await book.all()).toEqual([]);
  expect((await book.keep(sheet('Quillmere', 'one'))).isNew).toBe(true);
  expect((await book.keep(sheet('QUILLMERE', 'two'))).isNew).toBe(false);
  expect(await readdir(join(home, 'metadata'))).toEqual(['Quillmere.json']);
  const kept = await book.one('quillmere');
  expect(readMetadataSheetText(kept?.text ?? '')).toMatchObject({ sheet: { all: { caption: 'two' } } });
  expect(await book.forget(' quillmere')).toBe(true);
  expect(await book.forget('quillmere')).toBe(false);
  expect(await readdir(join(home, 'metadata'))).toEqual([]);
});

test('titles that a file’s name cannot tell apart lie side by side, and none leads out of the folder', async () => {
  for (const title of ['A/B', 'A:B', '../../keys']) await book.keep(sheet(title, title));
  expect((await book.all()).map(({ title }) => title).sort()).toEqual(['../../keys', 'A/B', 'A:B']);
  expect((await readdir(join(home, 'metadata'))).length).toBe(3);
  expect(await readdir(home)).toEqual(['metadata']);
});

test('a file that holds something else is named, and left as it is', async () => {
  await book.keep(sheet('Quillmere', 'one'));
  const file = join(home, 'metadata/other.json');
  await writeFile(file, '{"version":9}');
  await expect(book.all()).rejects.toMatchObject({ code: 'bad-settings' });
  await expect(book.all()).rejects.toThrow('other.json');
  expect(await readFile(file, 'utf8')).toBe('{"version":9}');
});
