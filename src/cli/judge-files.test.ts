import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type MadeTarget, madeTargetPicture } from '../judge/testing/made-target.ts';
import { sentence } from '../words/index.ts';
import { startDevelopPool } from '../workers/index.ts';
import { heldAgainst, type JudgedRead, readFile, readReference } from './judge-files.ts';

// Each is a file that somebody may well drop on the command: none of them proves anything good.
let folder: string;
const pool = startDevelopPool({ size: 0 });
const wishes = { whiteBackdrop: false };

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'setside-judge-'));
});

afterAll(async () => {
  await pool.close();
  await rm(folder, { recursive: true, force: true });
});

type Light = (x: number, y: number) => number;

/** A picture of one grey a pixel, as a PNG without any metadata; 16 bits and one channel where it is wanted. */
async function made(
  name: string,
  width: number,
  height: number,
  light: Light,
  deep = false,
): Promise<string> {
  const values = Uint8Array.from({ length: width * height }, (_, at) =>
    light(at % width, Math.floor(at / width)),
  );
  const grey = sharp(values, { raw: { width, height, channels: 1 } });
  const png = deep ? grey.toColourspace('grey16') : grey.toColourspace('srgb');
  const path = join(folder, name);
  await writeFile(path, await png.png().toBuffer());
  return path;
}

/** Discs, none like another and none repeated. */
const strewn = [
  [40, 50, 22, 200],
  [120, 35, 14, 30],
  [205, 60, 30, 160],
  [265, 25, 10, 230],
  [70, 130, 17, 20],
  [150, 120, 26, 220],
  [235, 150, 19, 40],
  [25, 175, 12, 240],
  [180, 185, 9, 130],
] as const;
const discs: Light = (x, y) =>
  strewn.find(([cx, cy, radius]) => Math.hypot(x - cx, y - cy) < radius)?.[3] ?? 90;

async function judged(path: string, reference: string | null): Promise<JudgedRead> {
  const held = reference === null ? null : await readReference(reference, pool, wishes);
  return heldAgainst(await readFile(path, pool, wishes, held), held, wishes);
}

test.each([
  ['black.png', 300, 200, () => 0, false],
  ['white.png', 300, 200, () => 255, false],
  ['one-pixel.png', 1, 1, () => 90, false],
  ['no-edges.png', 300, 200, (x: number) => 60 + x / 3, false],
  ['deep-monochrome.png', 300, 200, discs, true],
] as const)(
  '%s: unknown with a reason, in place and in colour, and no exception',
  async (name, width, height, light, deep) => {
    const path = await made(name, width, height, light, deep);
    const other = await made(`beside-${name}`, 240, 300, discs);
    for (const reference of [null, other, path]) {
      const { verdicts } = await judged(path, reference);
      const itself = reference === path && name === 'deep-monochrome.png';
      if (!itself) expect(verdicts.inPlace.judgement).toBe('unknown');
      expect(verdicts.colour.judgement).toBe('unknown');
      for (const { findings } of Object.values(verdicts)) {
        for (const finding of findings) expect(sentence(finding)).not.toBe('');
      }
    }
  },
);

test('a reference of another size counts as if it filled the frame; one that cannot be read is said', async () => {
  const path = await made('large.png', 600, 400, (x, y) => discs(x / 2, y / 2));
  const small = await made('small.png', 300, 200, discs);
  const { verdicts } = await judged(path, small);
  expect(verdicts.inPlace.judgement).toBe('good');
  const unread = heldAgainst(await readFile(path, pool, wishes, null), { path: 'x', read: null }, wishes);
  expect(unread.verdicts.inPlace.findings[0]).toEqual({ code: 'place.reference-unread', args: {} });
});

test('without a reference nothing is said of a shot: the command knows none', async () => {
  const { verdicts } = await judged(await made('alone.png', 300, 200, discs), null);
  expect(verdicts.inPlace.findings[0]).toEqual({ code: 'place.none-given', args: {} });
  expect(sentence(verdicts.inPlace.findings[0])).not.toContain('shot');
});

test.each([
  [
    'two targets',
    [
      [200, 200],
      [600, 380],
    ],
    'several',
  ],
  ['a target half out of the picture', [[70, 300]], 'cut-off'],
] as const)(
  '%s: its colours are unknown, with the reason, and nothing is thrown',
  async (name, centres, why) => {
    const targets = centres.map((centre): MadeTarget => ({ centre, widthPx: 260 }));
    const { data, widthPx, heightPx } = madeTargetPicture({ widthPx: 800, heightPx: 600, targets, noise: 1 });
    const path = join(folder, `${name}.png`);
    await writeFile(
      path,
      await sharp(data, { raw: { width: widthPx, height: heightPx, channels: 3 } })
        .png()
        .toBuffer(),
    );
    const { file, verdicts } = await judged(path, null);
    expect(file.readings.colour).toMatchObject({ found: false, why });
    expect(verdicts.colour.judgement).toBe('unknown');
    expect(sentence(verdicts.colour.findings[0])).not.toBe('');
  },
);

test('a reference that stands upright says nothing of a frame that lies, even where Exif turned it', async () => {
  const lying = await made('lying.png', 300, 200, discs);
  const turned = join(folder, 'turned.jpg');
  // Stored lying, shown upright: Exif 2.32, Orientation 6.
  await sharp(lying).jpeg().withMetadata({ orientation: 6 }).toFile(turned);
  const { verdicts } = await judged(lying, turned);
  expect(verdicts.inPlace.judgement).toBe('unknown');
  expect(verdicts.inPlace.findings[0].code).toBe('place.other-orientation');
});
