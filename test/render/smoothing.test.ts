import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { rgbSpaces } from '../../src/colour/index.ts';
import { renderMosaic } from '../../src/develop/index.ts';
import { madeMosaic } from '../../src/develop/testing/photo-mosaic.ts';
import type { Rgb8 } from '../../src/image/index.ts';
import { compileLook, lookSchema } from '../../src/look/index.ts';
import { hasShared, sharedPath } from '../shared.ts';

/** Decibels of the peak over the mean squared difference of two pictures of 8 bits. */
function psnr(one: Rgb8, other: ArrayLike<number>): number {
  const squares = one.data.reduce((sum, code, i) => sum + (code - (other[i] ?? 0)) ** 2, 0);
  return 10 * Math.log10(255 ** 2 / (squares / one.data.length));
}

describe.skipIf(!hasShared())('smoothing of photographs with noise put in', () => {
  // Photographs of ../shared/reference/photos (its SOURCES.md names each); noise of a small sensor at high sensitivity.
  test.each(['coffee.png', 'kodim07.png', 'kodim23.png'])(
    '%s comes nearer to what it was, by more than any Gaussian brings it, at full size and half',
    async (name) => {
      const { data, info } = await sharp(sharedPath(`reference/photos/${name}`))
        .removeAlpha()
        .raw()
        .toBuffer({ resolveWithObject: true });
      const at = (row: number, column: number, channel: number): number =>
        0.9 * rgbSpaces.srgb.transfer.decode((data[(row * info.width + column) * 3 + channel] ?? 0) / 255);
      const [widthPx, heightPx] = [info.width & ~1, info.height & ~1];
      const clean = madeMosaic(widthPx, heightPx, at);
      const noisy = madeMosaic(widthPx, heightPx, at, { read: 100, shot: 8 });
      const look = (luma: number, chroma: number) =>
        compileLook(lookSchema.parse({ version: 2, title: 'Smooth', smoothing: { luma, chroma } }));
      for (const size of ['full', 'half'] as const) {
        const truth = renderMosaic(clean, look(0, 0), size).picture;
        const none = renderMosaic(noisy, look(0, 0), size).picture;
        const smoothed = renderMosaic(noisy, look(1, 1), size).picture;
        const found = psnr(truth, smoothed.data);
        expect(found).toBeGreaterThan(psnr(truth, none.data) + 0.7);
        for (const sigma of [0.4, 0.5, 0.6, 0.8, 1.2]) {
          const blurred = await sharp(none.data, {
            raw: { width: none.widthPx, height: none.heightPx, channels: 3 },
          })
            .blur(sigma)
            .raw()
            .toBuffer();
          expect(found).toBeGreaterThan(psnr(truth, blurred) + 0.5);
        }
      }
    },
  );
});
