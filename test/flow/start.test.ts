import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { runProgram } from './clients.ts';
import { newHome, removeHome, startStation } from './running-station.ts';

let home: string;

beforeAll(async () => {
  home = await newHome();
});

afterAll(async () => {
  await removeHome(home);
});

test('a start reads few files: what is joined in the build, and the packages that stay outside', async () => {
  const list = join(home, 'loaded.txt');
  const counter = join(import.meta.dirname, 'count-loaded.mjs');
  const station = await startStation(join(home, 'few'), [], {
    NODE_OPTIONS: `--import=${counter}`,
    LOADED: list,
  });
  await station.stop();
  const loaded = [...new Set((await readFile(list, 'utf8')).split('\n'))];
  expect(loaded.filter((path) => path.includes('/dist/run/')).length).toBeGreaterThan(10);
  // Unjoined there were 2,368; joined, on the day this was written, some 150.
  expect(loaded.length).toBeLessThan(250);
  expect(loaded.filter((path) => /\/dist\/(?!run\/)/.test(path))).toEqual([]);
  // Needed when something is sent to storage, printed or read out of a picture, and not before.
  expect(
    loaded.filter((path) => /node_modules\/(@aws-sdk|pdfkit|exiftool|libraw|sharp|zxing)/.test(path)),
  ).toEqual([]);
});

test('a trace of what is joined in the build leads to the sources', async () => {
  const breakHome = `import os from 'node:os';
import { syncBuiltinESMExports } from 'node:module';
os.homedir = () => { throw new TypeError('made to fail'); };
syncBuiltinESMExports();
process.env.SETSIDE_TRACE = '1';`;
  const { code, stderr } = await runProgram(process.execPath, [
    '--enable-source-maps',
    `--import=data:text/javascript,${encodeURIComponent(breakHome)}`,
    join(import.meta.dirname, '../../bin/setside.mjs'),
    'station',
  ]);
  expect(code).toBe(3);
  const source = await readFile(join(import.meta.dirname, '../../src/cli/station.ts'), 'utf8');
  const line = source.split('\n').findIndex((text) => text.includes('const home = resolve(')) + 1;
  expect(stderr).toContain(`src/cli/station.ts:${line}:`);
});
