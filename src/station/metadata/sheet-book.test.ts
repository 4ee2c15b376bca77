import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { readMetadataSheetText, specificationTextMax } from '../../deliver/index.ts';
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

const titles = async (): Promise<readonly string[]> => (await book.all()).sheets.map(({ title }) => title);

async function captionOf(title: string): Promise<string | undefined> {
  const kept = (await book.all()).sheets.find((each) => each.title === title);
  return readMetadataSheetText(kept?.text ?? '').sheet?.all.caption;
}

test('a sheet is kept under its title, which case does not tell apart, and is forgotten by it', async () => {
  expect(await book.all()).toEqual({ sheets: [], broken: [] });
  expect((await book.keep(sheet('Quillmere', 'one'))).isNew).toBe(true);
  expect((await book.keep(sheet('QUILLMERE', 'two'))).isNew).toBe(false);
  expect(await readdir(join(home, 'metadata'))).toEqual(['Quillmere.json']);
  expect(await captionOf('QUILLMERE')).toBe('two');
  expect(await book.forget(' quillmere')).toBe(true);
  expect(await book.forget('quillmere')).toBe(false);
  expect(await titles()).toEqual([]);
});

test('a forgotten sheet comes back as it was; of one title the last', async () => {
  expect(await book.bringBack('Quillmere')).toBeNull();
  for (const caption of ['one', 'two']) {
    await book.keep(sheet('Quillmere', caption));
    expect(await book.forget('Quillmere')).toBe(true);
  }
  expect(await book.bringBack(' QUILLMERE ')).toMatchObject({ title: 'Quillmere' });
  expect(await captionOf('Quillmere')).toBe('two');
  expect(await book.bringBack('Quillmere')).toBeNull();
});

test('one that comes back puts nothing out of its place', async () => {
  await book.keep(sheet('Quillmere', 'one'));
  await book.forget('Quillmere');
  await book.keep(sheet('quillmere', 'two'));
  await expect(book.bringBack('Quillmere')).rejects.toMatchObject({ code: 'sheet-there' });
  expect(await captionOf('quillmere')).toBe('two');
  // Nor a file of its name that holds another title.
  await book.keep(sheet('A:B', 'three'));
  await book.forget('A:B');
  await book.keep(sheet('A/B', 'four'));
  await book.bringBack('A:B');
  expect([await captionOf('A:B'), await captionOf('A/B')]).toEqual(['three', 'four']);
});

test('titles that a file’s name cannot tell apart lie side by side, and none leads out of the folder', async () => {
  for (const title of ['A/B', 'A:B', '../../keys']) await book.keep(sheet(title, title));
  expect([...(await titles())].sort()).toEqual(['../../keys', 'A/B', 'A:B']);
  expect((await readdir(join(home, 'metadata'))).length).toBe(3);
  expect(await readdir(home)).toEqual(['metadata']);
});

test('files that hold something else are told, left as they are, and hide none of the others', async () => {
  await book.keep(sheet('Quillmere', 'one'));
  const folder = join(home, 'metadata');
  const bad = {
    'a.json': '{"version":9}',
    'b.json': 'no JSON',
    'c.json': JSON.stringify(sheet('quillmere', 'two')),
    'd.json': JSON.stringify(sheet('Long', 'x')) + ' '.repeat(3 * specificationTextMax),
  };
  for (const [name, text] of Object.entries(bad)) await writeFile(join(folder, name), text);
  await mkdir(join(folder, 'e.json'));
  const { sheets, broken } = await book.all();
  expect(sheets.map(({ title }) => title)).toEqual(['Quillmere']);
  expect(broken.map(({ file, findings: [first] }) => [file, first?.code])).toEqual([
    ['metadata/a.json', 'deliver.not-one-of'],
    ['metadata/b.json', 'deliver.no-json'],
    ['metadata/c.json', 'metadata.same-title'],
    ['metadata/d.json', 'deliver.too-long'],
    ['metadata/e.json', 'metadata.not-read'],
  ]);
  // A sheet that would have the name of one of them gets another.
  await book.keep(sheet('a', 'three'));
  expect(await captionOf('a')).toBe('three');
  for (const [name, text] of Object.entries(bad))
    expect(await readFile(join(folder, name), 'utf8')).toBe(text);
});

test('as many are kept as fit, and a forgotten one waits for room', async () => {
  const folder = join(home, 'metadata');
  await book.keep(sheet('Quillmere', 'one'));
  await book.forget('Quillmere');
  const fill = (count: number): Promise<unknown> =>
    Promise.all(
      Array.from({ length: count }, (_, index) =>
        writeFile(join(folder, `s${index}.json`), JSON.stringify(sheet(`s${index}`, 'x'))),
      ),
    );
  await fill(500);
  await expect(book.keep(sheet('One more', 'x'))).rejects.toMatchObject({ code: 'too-many-sheets' });
  await expect(book.bringBack('Quillmere')).rejects.toMatchObject({ code: 'too-many-sheets' });
  expect((await book.keep(sheet('s7', 'y'))).isNew).toBe(false);
  await book.forget('s7');
  expect(await book.bringBack('Quillmere')).not.toBeNull();
});
