import { spawn } from 'node:child_process';
import { cp, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { renderFrame } from '../../src/stand-in/index.ts';
import { writeDng } from '../render/dng-writer.ts';
import { type Ran, runProgram } from './clients.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');
const develop = (...args: string[]): Promise<Ran> =>
  runProgram(process.execPath, [binary, 'develop', ...args]);

let folder: string;
let raw: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'setside-develop-'));
  raw = join(folder, 'a.dng');
  await writeFile(raw, (await renderFrame({ sizeMegapixels: 0.1 })).bytes);
});

afterAll(() => rm(folder, { recursive: true, force: true }));

describe('how results are written', () => {
  const profiles = join(import.meta.dirname, '../vectors/icc');

  test('space, depth and format are chosen by name', async () => {
    const out = join(folder, 'deep');
    const run = await develop(raw, '--space', 'romm', '--depth', '16', '--format', 'tiff', '--out', out);
    expect(run.code, run.stderr).toBe(0);
    const { depth, format } = await sharp(join(out, 'a.tif')).metadata();
    expect([depth, format]).toEqual(['ushort', 'tiff']);
  });

  test('a profile goes into the file as it was given', async () => {
    const profile = join(profiles, 'AdobeCompat-v2.icc');
    const out = join(folder, 'own');
    const run = await develop(raw, '--profile', profile, '--out', out);
    expect(run.code, run.stderr).toBe(0);
    const { icc } = await sharp(join(out, 'a.jpg')).metadata();
    expect(icc?.equals(await readFile(profile))).toBe(true);
  });

  test.each([
    [['--depth', '16'], /JPEG is written in 8 bits.*\n.*--format tiff or --format png/],
    [['--space', 'srgb', '--profile', binary], /both say what to write in/],
    [['--profile', binary], /no ICC profile/],
    [['--format', 'tiff-linear', '--depth', '8'], /Linear light is written in 16 bits/],
    [['--space', 'nonsense'], /Allowed choices are srgb/],
    [['--depth', '12'], /expected 8 or 16/],
  ])('%j does not go together: the exit code is 2, and it is said what does', async (args, said) => {
    const out = join(folder, 'refused');
    const run = await develop(raw, ...args, '--out', out);
    expect(run.code).toBe(2);
    expect(run.stderr).toMatch(said);
    await expect(readdir(out)).rejects.toThrow(/ENOENT/);
  });
});

describe('a lens by hand', () => {
  test('bends the picture that it is given for, and says where it has no part', async () => {
    const lens = join(folder, 'lens.json');
    await writeFile(lens, JSON.stringify({ radial: [1, 0.2, 0, 0] }));
    const out = join(folder, 'lens');
    const picture = async (wish: string): Promise<Buffer> => {
      const run = await develop(raw, '--lens', wish, '--out', out, '--replace', '--format', 'png');
      expect(run.code, run.stderr).toBe(0);
      return sharp(join(out, 'a.png')).raw().toBuffer();
    };
    const plain = await picture('file');
    expect((await picture('none')).equals(plain)).toBe(true);
    expect((await picture(lens)).equals(plain)).toBe(false);
    const finished = await develop(join(out, 'a.png'), '--lens', lens, '--out', join(out, 'again'));
    expect(finished.stdout).toContain('this picture was left as it is');
  });

  test.each([
    ['{"zoom": 2}', /describes no lens: Unrecognized key: "zoom"/],
    ['{"radial": [1]}', /describes no lens: radial/],
    ['nothing', /describes no lens: it is no JSON\n.*lens\.schema\.json/],
  ])('%s is refused with where it is described', async (text, said) => {
    const lens = join(folder, 'bad.json');
    await writeFile(lens, text);
    const run = await develop(raw, '--lens', lens, '--out', join(folder, 'refused'));
    expect(run.code).toBe(2);
    expect(run.stderr).toMatch(said);
  });
});

test('broken off in the middle, what is done lies there whole, nothing else does, and the exit code is 3', async () => {
  const originals = join(folder, 'many');
  await mkdir(originals);
  const [widthPx, heightPx] = [2400, 1600];
  const values = Uint16Array.from({ length: widthPx * heightPx }, (_, at) => 600 + ((at * 7919) % 9000));
  await writeFile(join(originals, '0.dng'), writeDng({ widthPx, heightPx, values }));
  const names = Array.from({ length: 12 }, (_, index) => `${index}.dng`);
  for (const name of names.slice(1)) await cp(join(originals, '0.dng'), join(originals, name));
  const out = join(folder, 'broken-off');
  await mkdir(out);
  const files = names.map((name) => join(originals, name));
  const args = [binary, 'develop', ...files, '--size', 'full', '--out', out];
  const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  child.stderr.on('data', (text) => {
    said += String(text);
  });
  const ended = new Promise<number | null>((resolve) => child.on('exit', resolve));
  // The first line is printed once its file lies there; the next ones are being made then.
  await new Promise((resolve) => child.stdout.once('data', resolve));
  child.kill('SIGINT');
  expect(await ended).toBe(3);
  expect(said).toMatch(/Broken off: \d+ of 12 files were done\./);
  const left = await readdir(out);
  expect(left.length).toBeGreaterThan(0);
  expect(left.length).toBeLessThan(12);
  for (const name of left) {
    expect(name).toMatch(/^\d+\.jpg$/);
    const { width } = await sharp(join(out, name))
      .stats()
      .then(() => sharp(join(out, name)).metadata());
    expect(width).toBeGreaterThan(2000);
  }
}, 120_000);
