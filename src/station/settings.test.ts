import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, expect, test } from 'vitest';
import { readSettings } from './settings.ts';

const home = mkdtempSync(join(tmpdir(), 'setside-settings-'));
const file = join(home, 'setside.json');
afterAll(() => rmSync(home, { recursive: true }));
beforeEach(() => rmSync(file, { recursive: true, force: true }));

test('no file is no wish', async () => {
  expect(await readSettings(home)).toEqual({});
  expect(await readSettings(join(home, 'not-there-yet'))).toEqual({});
});

test('every setting of docs/home.md is read', async () => {
  const written = {
    web: 0,
    ftp: '2121',
    ftps: 2990,
    encryptedOnly: true,
    tlsFrom: '1.3',
    tlsResume: true,
    watch: 'cam1=/media/card',
    sftp: 2222,
    sftpOldCameras: true,
    passive: '50000-50099',
    bind: '127.0.0.1',
    copy: '/media/second',
    memoryCounts: true,
    diskFloorMB: 2000,
    renderingsMB: 5000,
    silentAfterMinutes: 5,
    keepAwake: false,
    sidecars: false,
  };
  writeFileSync(file, JSON.stringify(written));
  expect(await readSettings(home)).toEqual({
    ...written,
    ftp: 2121,
    passive: { from: 50_000, to: 50_099 },
    tlsFrom: 'TLSv1.3',
    watch: [{ camera: 'cam1', folder: '/media/card' }],
    copy: ['/media/second'],
  });
});

test('a file that is there and cannot be read is refused, so that no station serves where it was told not to', async () => {
  // A folder in its place: refused also to the user who may read everything.
  mkdirSync(file);
  await expect(readSettings(home)).rejects.toMatchObject({
    code: 'bad-settings',
    message: expect.stringContaining('cannot be read'),
  });
});

test.each([
  ['{', 'is not JSON'],
  ['[]', 'is not an object'],
  ['{"bnid": "10.0.0.1"}', '"bnid" is no setting'],
  ['{"web": 65536}', '"web" in'],
  ['{"bind": "studio.example"}', '"bind" in'],
  ['{"passive": "9-1"}', '"passive" in'],
  ['{"tlsFrom": "1.1"}', '"tlsFrom" in'],
  ['{"watch": "card"}', '"watch" in'],
  ['{"keepAwake": "yes"}', 'neither true nor false'],
  ['{"copy": [1]}', 'list of folders'],
  ['{"diskFloorMB": -1}', 'no number up to'],
])('%s is refused in words that name the file', async (text, said) => {
  writeFileSync(file, text);
  await expect(readSettings(home)).rejects.toThrow(said);
  await expect(readSettings(home)).rejects.toThrow(file);
});
