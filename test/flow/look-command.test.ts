import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { defaultLook, readLookText } from '../../src/look/index.ts';
import { renderFrame } from '../../src/stand-in/index.ts';
import { type Ran, runProgram } from './clients.ts';

const setside = (...args: string[]): Promise<Ran> =>
  runProgram(process.execPath, [join(import.meta.dirname, '../../bin/setside.mjs'), ...args]);
const vector = (name: string): string => join(import.meta.dirname, '../vectors/look', name);

let folder: string;
let grey: string;
let newer: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'setside-look-'));
  grey = join(folder, 'grey.look.json');
  newer = join(folder, 'newer.json');
  const monochrome = { amount: 1 };
  await writeFile(
    grey,
    JSON.stringify({ ...defaultLook, title: 'Grey', monochrome, grain: { density: 0.02 } }),
  );
  await writeFile(newer, JSON.stringify({ version: 9, title: 'To come' }));
});

afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
});

const lines = (run: Ran): Record<string, unknown>[] =>
  run.stdout
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line));

test('check says what each file is; one that cannot be used makes it no, one that is not there a failure', async () => {
  const good = await setside('look', 'check', grey, vector('chain.clf'), vector('decisions.cdl'));
  expect(good.code).toBe(0);
  expect(good.stdout).toMatch(/look "Grey".*CIEDE2000 mean 0\.0/);
  expect(good.stdout).toContain('CLF "Chain", Matrix, ASC_CDL, Log, LUT3D, Exponent');
  expect(good.stdout).toContain('2 corrections: first, second');
  const bad = await setside('look', 'check', '--json', newer, grey);
  expect(bad.code).toBe(1);
  expect(lines(bad)).toMatchObject([
    { ok: false, kind: null, findings: [{ code: 'look.newer-version' }] },
    {
      ok: true,
      kind: 'look',
      version: 2,
      nodes: 33,
      withinGoal: true,
      hash: expect.stringMatching(/^[0-9a-f]{64}$/),
    },
  ]);
  const said = await setside('look', 'check', newer);
  expect(said.stderr).toContain('version 9');
  const sly = join(folder, 'sly.json');
  await writeFile(sly, JSON.stringify({ version: 2, title: '\u001b[31mred\u009b2J' }));
  const { stdout } = await setside('look', 'check', sly);
  expect(Buffer.from(stdout, 'latin1').toString('utf8')).toContain('"\ufffd[31mred\ufffd2J"');
  const none = await setside('look', 'check', join(folder, 'none.json'));
  expect(none.code).toBe(3);
  expect(none.stderr).not.toMatch(/\n\s+at /);
});

test('compile writes a CLF table that check reads, and never over what is there', async () => {
  const run = await setside('look', 'compile', grey, '--nodes', '33', '--out', folder, '--json');
  expect(run.code).toBe(0);
  const outPath = join(folder, 'grey.clf');
  expect(lines(run)).toMatchObject([{ nodes: 33, outPath }]);
  expect((await setside('look', 'check', outPath)).stdout).toContain('Log, LUT3D, Log');
  const again = await setside('look', 'compile', grey, '--nodes', '33', '--out', folder);
  expect(again.code).toBe(3);
  expect(again.stderr).toContain('grey.clf is there already. Give another folder');
  expect(again.stderr).toContain('--replace');
  expect(run.stdout).toContain('look.table-left-out');
  expect((await setside('look', 'compile', grey, '--nodes', '34')).code).toBe(2);
});

test('a look on a picture that takes none is not ignored in silence; nobody is told of one they did not ask for', async () => {
  const picture = join(folder, 'b.png');
  await sharp({ create: { width: 64, height: 48, channels: 3, background: '#888' } })
    .png()
    .toFile(picture);
  const out = ['--out', join(folder, 'pictures')];
  const asked = await setside('develop', picture, '--look', grey, ...out);
  expect(asked.code).toBe(0);
  expect(asked.stdout).toContain('the look was not applied to it');
  const plain = await setside('develop', picture, '--replace', ...out);
  expect(plain.stdout).not.toContain('the look');
});

test('a document in UTF-16 is read', async () => {
  const text =
    '\ufeff<?xml version="1.0" encoding="UTF-16"?><ColorCorrection id="x"><SatNode><Saturation>1</Saturation></SatNode></ColorCorrection>';
  const little = Buffer.from(text, 'utf16le');
  await writeFile(join(folder, 'little.cc'), little);
  await writeFile(join(folder, 'big.cc'), Buffer.from(little).swap16());
  const run = await setside('look', 'check', join(folder, 'little.cc'), join(folder, 'big.cc'));
  expect(run.stdout.match(/one correction: x/g)).toHaveLength(2);
});

test('convert takes corrections to a look and back exactly, asks which of several, and names what is left out', async () => {
  const several = await setside('look', 'convert', vector('decisions.cdl'), '--to', 'look', '--out', folder);
  expect(several.code).toBe(2);
  expect(several.stderr).toContain('--id: first, second');
  const one = await setside(
    ...['look', 'convert', vector('decisions.cdl'), '--to', 'look', '--id', 'first', '--out', folder],
  );
  expect(one.code).toBe(0);
  const look = join(folder, 'decisions.look.json');
  expect(readLookText(await readFile(look, 'utf8')).look?.cdl).toMatchObject({
    slope: [1.1, 1, 0.9],
    saturation: 0.9,
  });
  const back = await setside('look', 'convert', look, '--to', 'cc', '--out', folder);
  expect(back.code).toBe(0);
  expect(await readFile(join(folder, 'decisions.cc'), 'utf8')).toContain('<Slope>1.1 1 0.9</Slope>');
  const lossy = await setside('look', 'convert', grey, '--to', 'cc', '--out', folder);
  expect(lossy.stdout).toContain('characteristic curve, black and white, grain');
});

test('develop takes a look from a file: black and white is grey in every pixel, and its grain is the same each time', async () => {
  const raw = join(folder, 'a.dng');
  await writeFile(raw, (await renderFrame({ sizeMegapixels: 0.1 })).bytes);
  const run = await setside('develop', raw, '--look', grey, '--format', 'png', '--out', folder);
  expect(run.code).toBe(0);
  expect(run.stdout).not.toContain('grain');
  const first = await readFile(join(folder, 'a.png'));
  const again = await setside(
    'develop',
    raw,
    '--look',
    grey,
    '--format',
    'png',
    '--replace',
    '--out',
    folder,
  );
  expect(again.code).toBe(0);
  expect(await readFile(join(folder, 'a.png'))).toEqual(first);
  const { data } = await sharp(join(folder, 'a.png'))
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  let colour = 0;
  let light = 0;
  for (let at = 0; at < data.length; at += 3) {
    const [r = 0, g = 0, b = 0] = data.subarray(at, at + 3);
    colour = Math.max(colour, Math.max(r, g, b) - Math.min(r, g, b));
    light = Math.max(light, g);
  }
  expect(colour).toBeLessThanOrEqual(1);
  expect(light).toBeGreaterThan(100);
  const wrong = await setside('develop', raw, '--look', newer, '--out', folder);
  expect(wrong.code).toBe(2);
  expect(wrong.stderr).toContain('version 9');
});
