import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import type { SharpReading } from '../../src/facts/index.ts';
import { halfPlaneOf } from '../../src/judge/half-plane.ts';
import { judgeSharp, noWishes, readPicture } from '../../src/judge/index.ts';
import type { LightGrid } from '../../src/judge/light-grid.ts';
import { readSharp } from '../../src/judge/sharp/read-sharp.ts';
import { hasShared, sharedPath } from '../shared.ts';
import { readVector } from '../vector.ts';

/**
 * Slanted edges with analytic response and photographs with known blur and noise; what they are, where they come from and
 * who else measured them stands in `sharpness/sfr-truth.json` and `sharpness/focus-measures.json` (coffee.png: CC0,
 * scikit-image; the parrots, a Kodak picture, lie beside the checkout only).
 */
const folder = join(import.meta.dirname, 'sharpness');

interface EdgeTruth {
  readonly file: string;
  readonly encoding: string;
  readonly angle_deg: number;
  readonly edge: string;
  readonly truth: { readonly mtf50_along_normal: number };
}
const { images, gaussian_table: table } = readVector<{
  readonly images: readonly EdgeTruth[];
  readonly gaussian_table: readonly {
    readonly sigma_px: number;
    readonly mtf50: number;
    readonly rise_10_90_px: number;
  }[];
}>('sharpness/sfr-truth.json');

test.each(images)('$file: MTF50 within 3 % of the analytic one', async ({ file, encoding, truth }) => {
  const grid = await linearGrid(join(folder, file), encoding);
  const found = readSharp(grid, halfPlaneOf(grid), { source: 'picture', spot: null }).atSpot;
  expect(Math.abs((found?.mtf50 ?? 0) / truth.mtf50_along_normal - 1)).toBeLessThan(0.03);
  // For a Gaussian the three figures hang together by the table; the one with a box is no Gaussian.
  if (file.includes('box')) return;
  const row = table.find(({ mtf50 }) => Math.abs(mtf50 / truth.mtf50_along_normal - 1) < 1e-3);
  const rise = row?.rise_10_90_px ?? 2.5631 * (0.18739063 / truth.mtf50_along_normal);
  expect(Math.abs((found?.widthPx ?? 0) / rise - 1)).toBeLessThan(0.03);
});

/** A picture in linear light (16 bits), or in sRGB. */
async function linearGrid(path: string, encoding: string): Promise<LightGrid> {
  const { data, info } = await sharp(path)
    .toColourspace(encoding.includes('16') ? 'grey16' : 'b-w')
    .raw({ depth: encoding.includes('16') ? 'ushort' : 'uchar' })
    .toBuffer({ resolveWithObject: true });
  const { width, height, channels } = info;
  const wide = new Uint16Array(data.buffer, data.byteOffset, encoding.includes('16') ? data.length / 2 : 0);
  const decode = (code: number): number => {
    const v = code / 255;
    return Math.round(65_535 * (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4));
  };
  const values = Uint16Array.from({ length: width * height }, (_, at) => {
    if (wide.length > 0) return wide[at * channels] ?? 0;
    const code = data[at * channels] ?? 0;
    return encoding.includes('sRGB') ? decode(code) : code * 257;
  });
  return {
    values,
    widthPx: width,
    heightPx: height,
    greenParity: -1,
    blacks: new Float64Array(2),
    saturation: 65_535,
  };
}

const readingOf = async (path: string): Promise<SharpReading> => {
  const { data, info } = await sharp(path).removeAlpha().raw().toBuffer({ resolveWithObject: true });
  const picture = {
    data: new Uint8Array(data),
    widthPx: info.width,
    heightPx: info.height,
    channels: 3 as const,
  };
  return readPicture(picture, noWishes, null).sharp;
};
const judge = (reading: SharpReading) =>
  judgeSharp({ reading, tolerances: {}, reference: null, previous: null }).judgement;
const coffee = (kind: string): Promise<SharpReading> => readingOf(join(folder, `focus-coffee-${kind}.png`));

/** The added blur alone makes an edge this wide; the limit for `good` is 2.8 px, so 1.2 px and more lie above it. */
const riseOf = (sigmaPx: number): number => 2.5631 * sigmaPx;

test('a photograph that was blurred is told by how much, and noise does not make it sharp', async () => {
  const widths = await Promise.all(
    ['gauss-0', 'gauss-0.5', 'gauss-0.8', 'gauss-1.2', 'gauss-2', 'gauss-3'].map(
      async (kind) => (await coffee(kind)).atSpot?.widthPx ?? 0,
    ),
  );
  expect([...widths].sort((a, b) => a - b)).toEqual(widths);
  // What was blurred by sigma has no edge clearly narrower than that blur makes it.
  for (const [index, sigma] of [0, 0.5, 0.8, 1.2, 2, 3].entries()) {
    expect(widths[index]).toBeGreaterThan(0.9 * riseOf(sigma));
  }
  const noisyBlur = await coffee('noise-on-blur-1.2_8');
  expect(noisyBlur.atSpot?.widthPx).toBeGreaterThan(0.9 * riseOf(1.2));
});

test('a clean but blurred picture is never good, a noisy sharp one never bad', async () => {
  for (const kind of ['gauss-1.2', 'gauss-2', 'gauss-3', 'noise-on-blur-1.2_8']) {
    expect(judge(await coffee(kind)), kind).not.toBe('good');
  }
  for (const kind of ['gauss-2', 'gauss-3']) expect(judge(await coffee(kind)), kind).toBe('bad');
  for (const kind of ['gauss-0', 'gauss-0.5', 'noise-8'])
    expect(judge(await coffee(kind)), kind).toBe('good');
});

describe.skipIf(!hasShared())('the parrots', () => {
  const parrot = (kind: string) => readingOf(sharedPath(`reference/sharpness/focus-parrot-${kind}.png`));
  test('blurred, out of focus or moved they are not good', async () => {
    for (const kind of ['gauss-2', 'defocus-5.0']) expect(judge(await parrot(kind)), kind).not.toBe('good');
    expect(judge(await parrot('gauss-0'))).not.toBe('bad');
    expect(judge(await parrot('motion-9_0'))).not.toBe('good');
  });
});
