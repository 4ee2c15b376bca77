import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { codeModules, isGreyCard, meantSlate, writeSlate } from '../../src/slate/index.ts';
import { renderFrame } from '../../src/stand-in/index.ts';
import { type SightPool, startSightPool } from '../../src/workers/index.ts';
import { hasShared, sharedPath } from '../shared.ts';

const text = writeSlate({ kind: 'shot', job: 'KILN-12', shot: 'jug' });
const [width, height] = [3000, 2000];

/** How a hand holds it: edge with quiet zone in pixels of 3000, turned, tilted about the upright, and how soft it is. */
interface Held {
  readonly edge: number;
  readonly roll: number;
  readonly tilt: number;
  readonly blur: number;
}

let sight: SightPool;
beforeAll(() => {
  sight = startSightPool({ size: 0 });
});
afterAll(() => sight.close());

/** Codes held into real photographs of everyday things (licences and sources in the reference's own list). */
describe.skipIf(!hasShared())('in a busy picture', () => {
  const photos = ['astronaut.png', 'coffee.png', 'kodim23.png'];

  describe.each<[string, Held]>([
    ['a fifteenth of the width, straight', { edge: 200, roll: 0, tilt: 0, blur: 0 }],
    ['a twelfth, turned and tilted', { edge: 250, roll: 20, tilt: 30, blur: 0 }],
    ['a tenth, upside down', { edge: 300, roll: 180, tilt: 10, blur: 0 }],
    ['a tenth, a little soft', { edge: 300, roll: -35, tilt: 20, blur: 1 }],
    ['a seventh, soft and strongly tilted', { edge: 430, roll: 100, tilt: 45, blur: 2 }],
  ])('a slate that is %s', (_how, held) => {
    test.each(photos)('is read in %s', async (photo) => {
      const answer = await sight.look({ picture: { bytes: await holdInto(photo, held) }, small: false });
      expect(meantSlate(answer.codes, answer)).toEqual({
        kind: 'one',
        slate: { kind: 'shot', job: 'KILN-12', shot: 'jug' },
      });
    });
  });

  test('is never seen where none is', async () => {
    const folder = sharedPath('reference/photos');
    const names = (await readdir(folder)).filter((name) => /\.(png|jpe?g)$/i.test(name));
    expect(names.length).toBeGreaterThan(5);
    for (const name of names) {
      const answer = await sight.look({ picture: { path: join(folder, name) }, small: false });
      expect(meantSlate(answer.codes, answer), name).toEqual({ kind: 'none' });
    }
  });
});

test('a code of somebody else is read and means nothing; noise gives none', async () => {
  const other = await sharp({ create: { width, height, channels: 3, background: '#777' } })
    .composite([{ input: await card('https://example.org/slate', 400), left: 900, top: 700 }])
    .jpeg()
    .toBuffer();
  const answer = await sight.look({ picture: { bytes: other }, small: false });
  expect(answer.codes.map((code) => code.text)).toEqual(['https://example.org/slate']);
  expect(meantSlate(answer.codes, answer)).toEqual({ kind: 'none' });
  const noise = await sharp({
    create: {
      width: 1500,
      height: 1000,
      channels: 3,
      background: '#777',
      noise: { type: 'gaussian', mean: 128, sigma: 90 },
    },
  })
    .png()
    .toBuffer();
  expect((await sight.look({ picture: { bytes: noise }, small: false })).codes).toEqual([]);
});

test('bytes that are no picture, or a cut one, are an answer and no crash', async () => {
  await expect(sight.look({ picture: { bytes: new Uint8Array(100) }, small: true })).rejects.toMatchObject({
    code: 'picture-cannot-decode',
  });
  const whole = await sharp({ create: { width: 900, height: 600, channels: 3, background: '#777' } })
    .jpeg()
    .toBuffer();
  expect((await sight.look({ picture: { bytes: whole.subarray(0, 900) }, small: true })).codes).toEqual([]);
});

/** The stand-in's truth about a slate, held against where ZXing-C++ finds it: two that share no geometry. */
test('a slate that the stand-in holds lies where its truth says, to a pixel and a half', async () => {
  const { files, truth } = await renderFrame({
    sizeMegapixels: 0.7,
    purpose: 'chart',
    held: { kind: 'slate', text },
    offsetPx: [2, -1],
  });
  const jpeg = files.find(({ kind }) => kind === 'jpeg');
  const answer = await sight.look({ picture: { bytes: jpeg?.bytes ?? new Uint8Array() }, small: false });
  expect(answer.codes.map((code) => code.text)).toEqual([text]);
  if (truth.held?.kind !== 'slate') throw new Error('expected a slate in the truth');
  const found = answer.codes[0]?.corners ?? [];
  for (const [index, [x, y]] of truth.held.cornersPx.entries()) {
    expect(Math.hypot((found[index]?.x ?? 0) - x, (found[index]?.y ?? 0) - y)).toBeLessThan(1.5);
  }
});

test('a grey card that the stand-in holds is one, its set is none', async () => {
  const seen = async (held?: { readonly kind: 'grey-card' }): Promise<boolean> => {
    const { files } = await renderFrame({
      sizeMegapixels: 0.1,
      purpose: 'chart',
      ...(held === undefined ? {} : { held }),
    });
    const bytes = files.find(({ kind }) => kind === 'jpeg')?.bytes ?? new Uint8Array();
    const { small } = await sight.look({ picture: { bytes }, small: true });
    return small !== null && isGreyCard(small);
  };
  expect(await seen({ kind: 'grey-card' })).toBe(true);
  expect(await seen()).toBe(false);
});

/** A photograph with the card in front of it, through a pinhole 4000 pixels away; edges are gathered 2 by 2. */
async function holdInto(photo: string, { edge, roll, tilt, blur }: Held): Promise<Buffer> {
  const data = await sharp(sharedPath(`reference/photos/${photo}`))
    .resize(width, height, { fit: 'cover' })
    .flatten({ background: '#fff' })
    .toColourspace('srgb')
    .raw()
    .toBuffer();
  const modules = codeModules(text);
  const [a, t] = [(roll * Math.PI) / 180, (tilt * Math.PI) / 180];
  const [cx, cy, focal] = [1250, 1150, 4000];
  for (let y = cy - edge; y < cy + edge; y += 1) {
    for (let x = cx - edge; x < cx + edge; x += 1) {
      let [hits, light] = [0, 0];
      for (const [dx, dy] of [
        [0.25, 0.25],
        [0.75, 0.25],
        [0.25, 0.75],
        [0.75, 0.75],
      ] as const) {
        const u = ((x + dx - cx) * focal) / (focal * Math.cos(t) - (x + dx - cx) * Math.sin(t));
        const v = ((y + dy - cy) * (focal + u * Math.sin(t))) / focal;
        const value = cardAt(
          modules,
          (u * Math.cos(a) + v * Math.sin(a)) / edge,
          (v * Math.cos(a) - u * Math.sin(a)) / edge,
        );
        if (value === null) continue;
        hits += 1;
        light += value;
      }
      if (hits === 0) continue;
      const at = (y * width + x) * 3;
      for (let c = 0; c < 3; c += 1)
        data[at + c] = Math.round((light + (data[at + c] ?? 0) * (4 - hits)) / 4);
    }
  }
  const picture = sharp(data, { raw: { width, height, channels: 3 } });
  return (blur > 0 ? picture.blur(blur) : picture).jpeg({ quality: 90 }).toBuffer();
}

/** Encoded value of the card at shares of its edge from its middle; null beside it. */
function cardAt({ size, dark }: ReturnType<typeof codeModules>, a: number, b: number): number | null {
  if (Math.abs(a) >= 0.5 || Math.abs(b) >= 0.5) return null;
  const column = Math.floor((a + 0.5) * (size + 8)) - 4;
  const row = Math.floor((b + 0.5) * (size + 8)) - 4;
  const inside = row >= 0 && column >= 0 && row < size && column < size;
  return inside && dark[row * size + column] === 1 ? 28 : 222;
}

async function card(words: string, edge: number): Promise<Buffer> {
  const modules = codeModules(words);
  const data = Buffer.alloc(edge * edge * 3);
  for (let y = 0; y < edge; y += 1) {
    for (let x = 0; x < edge; x += 1) {
      const value = cardAt(modules, (x + 0.5) / edge - 0.5, (y + 0.5) / edge - 0.5) ?? 255;
      data.fill(value, (y * edge + x) * 3, (y * edge + x) * 3 + 3);
    }
  }
  return sharp(data, { raw: { width: edge, height: edge, channels: 3 } })
    .png()
    .toBuffer();
}
