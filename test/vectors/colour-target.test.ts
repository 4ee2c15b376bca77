import { join } from 'node:path';
import Color from 'colorjs.io';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import type { Vector3 } from '../../src/colour/index.ts';
import type { TargetReading } from '../../src/facts/index.ts';
import type { Rgb8 } from '../../src/image/index.ts';
import { readColourPicture } from '../../src/judge/index.ts';
import { readVector } from '../vector.ts';

interface PatchTruth {
  readonly patch: number;
  readonly lab_d50: Vector3;
  readonly dE00: number;
}
interface ImageTruth {
  readonly file: string;
  readonly summary: { readonly dE00_mean: number; readonly dE00_max: number };
  readonly patches: readonly PatchTruth[];
}
/** Pictures of the target, rendered from the published values; each patch measured on the stored pixels. */
const { images } = readVector<{ readonly images: readonly ImageTruth[] }>('colour-target/truth.json');

async function picture(file: string): Promise<Rgb8> {
  const { data, info } = await sharp(join(import.meta.dirname, 'colour-target', file))
    .removeAlpha()
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { data: new Uint8Array(data), widthPx: info.width, heightPx: info.height, channels: 3 };
}

function target(reading: ReturnType<typeof readColourPicture>): TargetReading {
  if (!reading.found) throw new Error(`no target: ${reading.why}`);
  return reading;
}

describe.each(images)('$file', (truth) => {
  test('colours and their differences are those measured on the stored pixels', async () => {
    const reading = target(
      readColourPicture(await picture(truth.file), { edition: 'before-november-2014' }, null),
    );
    expect(reading.confidence).toBeGreaterThan(0.9);
    expect(reading.asIs?.mean).toBeCloseTo(truth.summary.dE00_mean, 1);
    expect(reading.asIs?.max).toBeCloseTo(truth.summary.dE00_max, 1);
    for (const { patch, lab_d50, dE00 } of truth.patches) {
      const own = reading.patches[patch - 1];
      if (own?.lab === undefined || own.lab === null) throw new Error(`patch ${patch} has no colour`);
      // The truth has the exposure as it is: XYZ times a gain is, in f, Lab's own scale about 16 / 116.
      const [L, a, b] = own.lab;
      const gain = 2 ** reading.exposureEv;
      const asIs = new Color('xyz-d50', xyzTimes(new Color('lab', [L, a, b]), gain)).to('lab');
      const [l0 = 0, a0 = 0, b0 = 0] = asIs.coords.map((value) => value ?? 0);
      const wanted = new Color('lab', [...lab_d50]);
      expect(asIs.deltaE(wanted, '2000'), `patch ${patch}: ${[l0, a0, b0].join(' ')}`).toBeLessThan(0.1);
      // And color.js finds the same difference from the published value.
      expect(asIs.deltaE(new Color('lab', [...own.published]), '2000')).toBeCloseTo(dE00, 1);
    }
  });

  test('differences with the exposure put right are those of color.js', async () => {
    const reading = target(readColourPicture(await picture(truth.file), { edition: null }, null));
    for (const { lab, published, deltaE00 } of reading.patches) {
      if (lab === null) throw new Error('a picture has colours');
      expect(new Color('lab', [...lab]).deltaE(new Color('lab', [...published]), '2000')).toBeCloseTo(
        deltaE00 ?? -1,
        7,
      );
    }
  });
});

function xyzTimes(color: Color, gain: number): [number, number, number] {
  const [x, y, z] = color.to('xyz-d50').coords.map((value) => (value ?? 0) * gain);
  return [x ?? 0, y ?? 0, z ?? 0];
}

test('the edition is recognised where a picture is true enough, and the rest says what is wrong with it', async () => {
  const read = async (file: string): Promise<TargetReading> =>
    target(readColourPicture(await picture(file), { edition: null }, null));
  const faithful = await read('faithful.png');
  expect(faithful).toMatchObject({ edition: 'before-november-2014', editionBy: 'recognised' });
  expect(faithful.exposureEv).toBeCloseTo(0, 1);
  expect(Math.abs(faithful.greys?.duv ?? 1)).toBeLessThan(0.001);
  const under = await read('under-1-stop.png');
  expect(under.exposureEv).toBeCloseTo(-1, 1);
  expect(under.colour?.mean).toBeLessThan(1);
  const warm = await read('warm.png');
  expect(warm.greys?.deltaK).toBeLessThan(-1000);
  expect(warm.profile?.leaveOneOut.mean).toBeLessThan(2);
  const vivid = await read('oversaturated.png');
  expect(vivid.colour?.chroma).toBeGreaterThan(5);
  expect(vivid.patches[14]?.deltaC).toBeGreaterThan(5);
});

test.each(['before', 'after'] as const)(
  'the values compared with are the published ones, %s November 2014',
  async (name) => {
    const { patches } = readVector<{ readonly patches: readonly { readonly lab_d50: Vector3 }[] }>(
      `colour-chart24-${name}-nov2014.json`,
    );
    const edition = name === 'before' ? 'before-november-2014' : 'from-november-2014';
    const reading = target(readColourPicture(await picture('faithful.png'), { edition }, null));
    expect(reading.editionBy).toBe('given');
    expect(reading.patches.map(({ published }) => published)).toEqual(patches.map(({ lab_d50 }) => lab_d50));
  },
);
