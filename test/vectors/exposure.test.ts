import { join } from 'node:path';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { noWishes, readPicture } from '../../src/judge/index.ts';
import { readVector } from '../vector.ts';

/** Pictures with exactly known clipping; counted with NumPy on the stored pixels, see `exposure/images-truth.json`. */
interface ImageTruth {
  readonly file: string;
  readonly pixels: number;
  readonly clipped_any_channel: number;
  readonly clipped_per_channel_rgb: readonly [number, number, number];
  readonly intended_white_background?: boolean;
}
const { images } = readVector<{ readonly images: readonly ImageTruth[] }>('exposure/images-truth.json');
const kept = images.filter(({ file }) => file.endsWith('.png') && !file.startsWith('coffee'));

test.each(kept)('$file: lost light is counted to the pixel, in every channel', async (truth) => {
  const { data, info } = await sharp(join(import.meta.dirname, 'exposure', truth.file))
    .removeAlpha()
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true });
  expect(info.channels).toBe(3);
  const picture = {
    data: new Uint8Array(data),
    widthPx: info.width,
    heightPx: info.height,
    channels: 3 as const,
  };
  const { exposed } = readPicture(picture, noWishes, null);
  const percent = (pixels: number): number => (100 * pixels) / truth.pixels;
  expect(exposed.saturatedPercent + exposed.islandsPercent).toBeCloseTo(
    percent(truth.clipped_any_channel),
    9,
  );
  const [red, green, blue] = truth.clipped_per_channel_rgb.map(percent);
  expect(exposed.red.saturatedPercent).toBeCloseTo(red ?? 0, 9);
  expect(exposed.green.saturatedPercent).toBeCloseTo(green ?? 0, 9);
  expect(exposed.blue.saturatedPercent).toBeCloseTo(blue ?? 0, 9);
  if (truth.intended_white_background !== true) return;
  expect(exposed.saturatedPercent).toBe(exposed.atBorderPercent);
  expect(exposed.backdrop.whitePercent).toBeGreaterThan(99);
});

test('18 % grey lies at the middle of the stops', async () => {
  const { data, info } = await sharp(join(import.meta.dirname, 'exposure/grey-18-percent.png'))
    .removeAlpha()
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true });
  const picture = {
    data: new Uint8Array(data),
    widthPx: info.width,
    heightPx: info.height,
    channels: 3 as const,
  };
  // The truth's own figure: +0.0093 EV, code 118 being a little brighter than 18 %.
  expect(readPicture(picture, noWishes, null).exposed.middleStops).toBeCloseTo(0.0093, 2);
});
