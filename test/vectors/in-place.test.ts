import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import type { PlaceShift } from '../../src/facts/index.ts';
import type { Rgb8 } from '../../src/image/index.ts';
import { judgeInPlace, placeOfPicture, readInPlace } from '../../src/judge/index.ts';
import { gaussian } from '../../src/judge/testing/made-light.ts';
import { hasShared, sharedPath } from '../shared.ts';
import { readVector } from '../vector.ts';

/**
 * Photographs moved by known amounts (resampled by OpenCV from larger ones, so that no border is invented), with what
 * OpenCV and scikit-image find beside each: `in-place/pairs.json` tells the source, the convention and the tolerances. A
 * cup of coffee (CC0) lies here, the rest beside the checkout.
 */
interface Pair {
  readonly reference: string;
  readonly moved: string;
  readonly truth: {
    readonly dx: number;
    readonly dy: number;
    readonly rotation_deg: number;
    readonly scale: number;
  };
}
const { pairs } = readVector<{ readonly pairs: readonly Pair[] }>('in-place/pairs.json');
const here = ['coffee-3.png', 'coffee-4.png', 'coffee-6.png', 'coffee-7.png', 'coffee-8.png'];

async function pictureAt(path: string): Promise<Rgb8> {
  const { data, info } = await sharp(path).removeAlpha().raw().toBuffer({ resolveWithObject: true });
  return { data: new Uint8Array(data), widthPx: info.width, heightPx: info.height, channels: 3 };
}

function shiftOf(moved: Rgb8, reference: Rgb8): PlaceShift {
  const { shift } = readInPlace(placeOfPicture(moved, null), {
    plane: placeOfPicture(reference, null),
    region: null,
  });
  if (shift === null || 'unknown' in shift) throw new Error(`not told: ${shift?.unknown}`);
  return shift;
}

/** The table's own tolerances: 0.1 px for pure shifts; 0.3 px, 0.05 degrees, 0.002 of scale otherwise. */
function expectTruth(found: PlaceShift, { truth }: Pair): void {
  const pure = truth.rotation_deg === 0 && truth.scale === 1;
  const off = Math.hypot(found.rightPx - truth.dx, found.downPx - truth.dy);
  expect(off).toBeLessThan(pure ? 0.1 : 0.3);
  expect(Math.abs(found.clockwiseDegrees - truth.rotation_deg)).toBeLessThan(0.05);
  expect(Math.abs(found.largerPercent / 100 + 1 - truth.scale)).toBeLessThan(0.002);
  // The whole picture was moved: no part by itself.
  expect(found.part).toBeNull();
}

const folder = join(import.meta.dirname, 'in-place');
const inFolder = (name: string): Promise<Rgb8> => pictureAt(join(folder, name));

test.each(pairs.filter(({ moved }) => here.includes(moved)))(
  '$moved is where it was moved to',
  async (pair) => {
    expectTruth(shiftOf(await inFolder(pair.moved), await inFolder(pair.reference)), pair);
  },
);

/** As a camera would have taken it: `ev` brighter in linear light, noise of the sensor, cut at white, encoded again. */
function retaken({ data, ...size }: Rgb8, ev: number, noise: number): Rgb8 {
  const random = gaussian(31);
  // IEC 61966-2-1.
  const decode = (v: number): number => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
  const encode = (v: number): number => (v <= 0.0031308 ? v * 12.92 : 1.055 * v ** (1 / 2.4) - 0.055);
  const codes = data.map((code) => {
    const light = decode(code / 255) * 2 ** ev;
    const seen = light + noise * Math.sqrt(Math.min(1, light) + 0.01) * random();
    return Math.round(255 * encode(Math.min(1, Math.max(0, seen))));
  });
  return { data: codes, ...size };
}

describe('through two stops and noise', () => {
  const truth = pairs.find(({ moved }) => moved === 'coffee-8.png');
  test.each([
    [-2, 0.02],
    [2, 0.02],
    [1, 0.05],
  ])('%d EV, noise of %d: within 0.5 px', async (ev, noise) => {
    const found = shiftOf(
      retaken(await inFolder('coffee-8.png'), ev, noise),
      await inFolder('coffee-ref.png'),
    );
    const { dx = 0, dy = 0 } = truth?.truth ?? {};
    expect(Math.hypot(found.rightPx - dx, found.downPx - dy)).toBeLessThan(0.5);
  });
});

test('another look plays no part: a steeper curve, black lifted, colours turned', async () => {
  const moved = await inFolder('coffee-8.png');
  const data = moved.data.map((code, at) => {
    const other = moved.data[at - (at % 3) + ((at + 1) % 3)] ?? code;
    const v = (0.75 * code + 0.25 * other) / 255;
    return Math.round(255 * (0.06 + 0.9 * v * v * (3 - 2 * v)));
  });
  const found = shiftOf({ ...moved, data }, await inFolder('coffee-ref.png'));
  expect(Math.hypot(found.rightPx + 6, found.downPx - 3)).toBeLessThan(0.3);
});

describe.skipIf(!hasShared())('pairs beside the checkout', () => {
  const beside = (name: string): Promise<Rgb8> => pictureAt(sharedPath(`reference/registration/${name}`));
  test.each(pairs.filter(({ moved }) => !here.includes(moved)))('$moved', async (pair) => {
    expectTruth(shiftOf(await beside(pair.moved), await beside(pair.reference)), pair);
  });

  test('a cup is not found in hats', async () => {
    const plane = placeOfPicture(await beside('hats-ref.png'), null);
    const reading = readInPlace(plane, {
      plane: placeOfPicture(await beside('coffee-ref.png'), null),
      region: null,
    });
    expect(reading.shift).toEqual({ unknown: 'other-picture' });
    const verdict = judgeInPlace({
      reading,
      against: 'reference',
      tolerances: {},
      mmPerPx: null,
      previous: null,
    });
    expect(verdict.judgement).toBe('unknown');
  });
});
