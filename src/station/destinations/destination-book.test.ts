import { chmod, mkdtemp, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { DestinationPlace } from '../../contract/index.ts';
import { DestinationBook } from './destination-book.ts';

let home: string;
let book: DestinationBook;

beforeEach(async () => {
  home = await mkdtemp(join(tmpdir(), 'setside-book-'));
  book = new DestinationBook(home);
});

afterEach(() => rm(home, { recursive: true, force: true }));

const printer: DestinationPlace = {
  kind: 'sftp',
  host: 'files.example',
  port: 22,
  user: 'studio',
  path: 'in',
  logInBy: 'password',
  hostKey: null,
};
const secretFile = (): string => join(home, 'keys/destination-printer.json');
const permissions = async (path: string): Promise<number> => (await stat(path)).mode & 0o777;

test('a secret lies apart, for this user only, and is in no answer', async () => {
  const put = await book.put('printer', printer, { from: 'kept', text: 'Secret-7' });
  expect(put).toEqual({ destination: { name: 'printer', place: printer, secret: 'kept' }, isNew: true });
  expect(JSON.stringify(await book.all())).not.toContain('Secret-7');
  expect(await readFile(join(home, 'destinations/printer.json'), 'utf8')).not.toContain('Secret-7');
  expect(await permissions(secretFile())).toBe(0o600);
  expect(await permissions(join(home, 'keys'))).toBe(0o700);
  expect(await book.secretOf('printer')).toBe('Secret-7');
  // Somebody copied the home about and widened the rights; they are taken back when it is read.
  await chmod(secretFile(), 0o644);
  await book.secretOf('printer');
  expect(await permissions(secretFile())).toBe(0o600);
});

test('a secret stays for the same log-in, and is gone where the place is another server', async () => {
  await book.put('printer', printer, { from: 'kept', text: 'Secret-7' });
  const { isNew, destination } = await book.put('printer', { ...printer, path: 'elsewhere' }, undefined);
  expect([isNew, destination.secret]).toEqual([false, 'kept']);
  for (const other of [{ host: 'evil.example' }, { port: 23 }, { user: 'root' }]) {
    await book.put('printer', printer, { from: 'kept', text: 'Secret-7' });
    await book.put('printer', { ...printer, ...other }, undefined);
    expect(await book.secretOf('printer')).toBeNull();
    expect(await readdir(join(home, 'keys'))).toEqual([]);
  }
});

test('a secret comes from the environment or a program, whose words no shell sees', async () => {
  await book.put('printer', printer, { from: 'environment', variable: 'SETSIDE_TEST_SECRET' });
  await expect(book.secretOf('printer')).rejects.toMatchObject({
    finding: { code: 'send.secret-failed', args: { why: '$SETSIDE_TEST_SECRET' } },
  });
  process.env.SETSIDE_TEST_SECRET = 'from-there';
  expect(await book.secretOf('printer')).toBe('from-there');
  delete process.env.SETSIDE_TEST_SECRET;
  const words = [process.execPath, '-e', 'console.log(process.argv[1])', '$HOME; echo'];
  await book.put('printer', printer, { from: 'command', words });
  expect(await book.secretOf('printer')).toBe('$HOME; echo');
});

test('a program that fails is told by its name, without what it was told or printed', async () => {
  const words = [process.execPath, '-e', 'console.log("Half-Secret"); process.exit(3)', 'Other-Secret'];
  await book.put('printer', printer, { from: 'command', words });
  const failure: unknown = await book.secretOf('printer').catch((thrown: unknown) => thrown);
  expect(failure).toMatchObject({ finding: { args: { why: `${process.execPath}: 3` } } });
  expect(String(failure instanceof Error ? failure.stack : failure)).not.toMatch(/Half-Secret|Other-Secret/);
  expect(JSON.stringify(failure)).not.toMatch(/Half-Secret|Other-Secret/);
});

test.each([
  { from: 'kept', text: 'Secret-7' },
  { from: 'environment', variable: 'SETSIDE_TEST_SECRET' },
] as const)('another name takes place and secret along, wherever that comes from: $from', async (source) => {
  await book.put('printer', printer, source);
  expect(await book.rename('printer', 'lab')).toEqual({ name: 'lab', place: printer, secret: source.from });
  expect(await book.all()).toEqual([{ name: 'lab', place: printer, secret: source.from }]);
  expect(await readdir(join(home, 'keys'))).toEqual(['destination-lab.json']);
  expect(JSON.parse(await readFile(join(home, 'keys/destination-lab.json'), 'utf8'))).toEqual(source);
});

test('a name that is taken is not given, and what is not there has none', async () => {
  await book.put('printer', printer, undefined);
  await book.put('lab', { ...printer, path: 'lab' }, { from: 'kept', text: 'Secret-8' });
  await expect(book.rename('printer', 'lab')).rejects.toMatchObject({ code: 'destination-there' });
  await expect(book.rename('nobody', 'other')).rejects.toMatchObject({ code: 'no-destination' });
  expect(await book.secretOf('lab')).toBe('Secret-8');
  expect((await book.all()).map(({ name }) => name)).toEqual(['lab', 'printer']);
});

test('one without a secret has none under its new name, whatever lay there', async () => {
  await book.put('printer', printer, undefined);
  await writeFile(join(home, 'keys/destination-lab.json'), '{"from":"kept","text":"Left-over"}');
  await book.rename('printer', 'lab');
  expect(await book.secretOf('lab')).toBeNull();
});

test('as many are kept as fit; any of them can be changed and have another name then', async () => {
  for (let number = 0; number < 200; number++)
    await book.put(`d-${number}`, { kind: 'folder', path: `${home}-elsewhere` }, undefined);
  await expect(book.put('printer', printer, undefined)).rejects.toMatchObject({
    code: 'too-many-destinations',
  });
  expect((await book.put('d-7', printer, undefined)).isNew).toBe(false);
  expect((await book.rename('d-7', 'lab')).name).toBe('lab');
});

test('what is forgotten leaves nothing, and a delivery there is told so', async () => {
  await book.put('printer', printer, { from: 'kept', text: 'Secret-7' });
  expect(await book.forget('printer')).toBe(true);
  expect(await book.forget('printer')).toBe(false);
  expect(await readdir(home, { recursive: true })).toEqual(['destinations', 'keys']);
  await expect(book.placeOf('printer')).rejects.toMatchObject({ finding: { code: 'send.no-destination' } });
  await expect(book.assertCanSendTo({ kind: 'named', name: 'printer' })).rejects.toMatchObject({
    code: 'no-destination',
  });
});

test('a folder is named from the root and lies outside the home', async () => {
  for (const path of ['relative', home, join(home, 'jobs/QM-26/originals')]) {
    await expect(book.put('disk', { kind: 'folder', path }, undefined)).rejects.toMatchObject({
      code: 'bad-destination',
    });
  }
  await book.put('disk', { kind: 'folder', path: `${home}-elsewhere` }, undefined);
});

test('a name leads nowhere else, and a file that holds something else is said without its text', async () => {
  expect(await book.one('../keys/destination-printer')).toBeNull();
  await book.put('printer', printer, { from: 'kept', text: 'Secret-7' });
  await writeFile(secretFile(), '{"from":"kept","secret":"Secret-7"}');
  const failure: unknown = await book.secretOf('printer').catch((thrown: unknown) => thrown);
  expect(failure).toMatchObject({ code: 'bad-settings' });
  expect(String(failure)).not.toContain('Secret-7');
});

test('a name leads nowhere but to its own file', async () => {
  await book.put('printer', printer, undefined);
  await writeFile(join(home, 'printer.json'), await readFile(join(home, 'destinations/printer.json')));
  for (const name of ['../printer', '../destinations/printer', 'Printer', ''])
    expect(await book.one(name), name).toBeNull();
});

test('no delivery begins that would be sent among the originals', async () => {
  const path = join(home, 'jobs/QM-26/originals');
  await expect(book.assertCanSendTo({ kind: 'folder', path })).rejects.toMatchObject({
    code: 'bad-destination',
  });
});

test('of what a program prints only the end of its line is no part of the secret', async () => {
  const print = (text: string): string[] => [
    process.execPath,
    '-e',
    `process.stdout.write(${JSON.stringify(text)})`,
  ];
  await book.put('printer', printer, { from: 'command', words: print(' a secret \n') });
  expect(await book.secretOf('printer')).toBe(' a secret ');
});
