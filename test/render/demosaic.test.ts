import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, describe, expect, test } from 'vitest';
import { rgbSpaces, type Vector3 } from '../../src/colour/index.ts';
import { bilinearPixel } from '../../src/develop/demosaic-reference.ts';
import { linearMosaic } from '../../src/develop/index.ts';
import { planDevelop } from '../../src/develop/plan.ts';
import type { Mosaic } from '../../src/facts/index.ts';
import type { Rgb8 } from '../../src/image/index.ts';
import { hasShared, sharedPath } from '../shared.ts';
import { dcrawEmuSensor, hasDcrawEmu, type LinearPicture } from './dcraw-emu.ts';
import { writeDng } from './dng-writer.ts';
import { sixFilters } from './layouts.ts';

/**
 * Reference photographs (SOURCES.md of the reference data), made mosaics and demosaiced; the table of docs/demosaic.md.
 * `DEMOSAIC_TABLE=1` prints it.
 */
const { transfer } = rgbSpaces.srgb;
const folder = mkdtempSync(join(tmpdir(), 'setside-demosaic-'));
const lines: string[] = [];
afterAll(() => {
  rmSync(folder, { recursive: true });
  if (process.env.DEMOSAIC_TABLE !== undefined) process.stdout.write(`${lines.join('\n')}\n`);
});

/** The picture as a camera that sees as sRGB would have it: linear light through RGGB filters. */
function mosaicFrom({ data, widthPx, heightPx }: Rgb8): Mosaic {
  const filters = [0, 1, 1, 2] as const;
  const values = Uint16Array.from({ length: widthPx * heightPx }, (_, index) => {
    const row = Math.floor(index / widthPx);
    const filter = filters[(row % 2) * 2 + ((index - row * widthPx) % 2)] ?? 1;
    return Math.round(transfer.decode((data[index * 3 + filter] ?? 0) / 255) * 65_535);
  });
  return {
    values,
    widthPx,
    heightPx,
    filters,
    blackLevels: [0, 0, 0, 0],
    whiteLevel: 65_535,
    asShotMultipliers: [1, 1, 1],
    xyzToCamera: rgbSpaces.srgb.fromXyz,
    orientation: 1,
    baselineExposureEv: 0,
  };
}

/** Pixels at the border left out: Kodak's pictures have a black line at an edge. */
const border = 8;

/** Colour PSNR in dB, over the codes of all three channels. `lightAt` is the demosaiced linear light. */
function psnr(picture: Rgb8, lightAt: (row: number, column: number) => readonly number[]): number {
  let squares = 0;
  let count = 0;
  for (let row = border; row < picture.heightPx - border; row++) {
    for (let column = border; column < picture.widthPx - border; column++) {
      lightAt(row, column).forEach((light, channel) => {
        const code = Math.round(255 * transfer.encode(Math.min(1, Math.max(0, light))));
        squares += (code - (picture.data[(row * picture.widthPx + column) * 3 + channel] ?? 0)) ** 2;
        count++;
      });
    }
  }
  return 10 * Math.log10(255 ** 2 / (squares / count));
}

function lightOf({ data, widthPx }: LinearPicture): (row: number, column: number) => Vector3 {
  return (row, column) => {
    const at = (row * widthPx + column) * 3;
    return [(data[at] ?? 0) / 65_535, (data[at + 1] ?? 0) / 65_535, (data[at + 2] ?? 0) / 65_535];
  };
}

async function photograph(name: string): Promise<Rgb8> {
  const { data, info } = await sharp(sharedPath(`reference/photos/${name}.png`))
    .removeAlpha()
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { data, widthPx: info.width, heightPx: info.height, channels: 3 };
}

const names = ['kodim03', 'kodim04', 'kodim07', 'kodim23', 'coffee', 'astronaut', 'chelsea'];
const page = readFileSync(join(import.meta.dirname, '../../docs/demosaic.md'), 'utf8');

/** Bilinear, LibRaw's, ours: a row of the page's table. */
function stated(name: string): number[] {
  const line = page.split('\n').find((text) => text.startsWith(`| ${name} |`)) ?? '';
  return line.split('|').slice(2, 5).map(Number);
}

describe.skipIf(!hasShared())('demosaicing of reference photographs', () => {
  test.each(names)('%s: as far above bilinear as docs/demosaic.md states, within 0.1 dB', async (name) => {
    const picture = await photograph(name);
    const mosaic = mosaicFrom(picture);
    const { bin } = planDevelop(mosaic);
    const bilinear = psnr(picture, (row, column) => bilinearPixel(mosaic, bin, row, column));
    const ours = psnr(picture, lightOf(linearMosaic(mosaic, 'srgb', 'full').picture));
    const [statedBilinear = 0, , statedOurs = 0] = stated(name);
    expect(Math.abs(bilinear - statedBilinear)).toBeLessThan(0.1);
    expect(Math.abs(ours - statedOurs)).toBeLessThan(0.1);
  });

  test.skipIf(!hasDcrawEmu()).each(names)(
    '%s: at least as good as LibRaw’s adaptive homogeneity-directed demosaic of the same mosaic',
    async (name) => {
      const picture = await photograph(name);
      const mosaic = mosaicFrom(picture);
      const { bin } = planDevelop(mosaic);
      const path = join(folder, `${name}.dng`);
      const { values, widthPx, heightPx } = mosaic;
      writeFileSync(
        path,
        writeDng({
          values,
          widthPx,
          heightPx,
          blackLevels: [0],
          whiteLevel: 65_535,
          asShotNeutral: [1, 1, 1],
        }),
      );
      const own = psnr(picture, lightOf(linearMosaic(mosaic, 'srgb', 'full').picture));
      const other = psnr(picture, lightOf(dcrawEmuSensor(path, 3)));
      const bilinear = psnr(picture, (row, column) => bilinearPixel(mosaic, bin, row, column));
      // The same mosaic went both ways: bilinear interpolation is one and the same.
      expect(psnr(picture, lightOf(dcrawEmuSensor(path, 0)))).toBeCloseTo(bilinear, 1);
      expect(own).toBeGreaterThanOrEqual(other);
      const figures = [bilinear, other, own].map((value) => value.toFixed(1));
      lines.push(`| ${name} | ${figures.join(' | ')} |`);
    },
  );
});

/** The same picture through the filters of a 6 x 6 mosaic. */
function sixFrom(picture: Rgb8): Mosaic {
  const mosaic = mosaicFrom(picture);
  const { data, widthPx } = picture;
  const values = mosaic.values.map((_, index) => {
    const row = Math.floor(index / widthPx);
    const filter = sixFilters[(row % 6) * 6 + ((index - row * widthPx) % 6)] ?? 1;
    return Math.round(transfer.decode((data[index * 3 + filter] ?? 0) / 255) * 65_535);
  });
  return { ...mosaic, values, layout: { kind: 'six', filters: sixFilters } };
}

/** LibRaw 0.20 breaks off at the other two, whose sizes its tiles do not fit. */
const namesOfBoth = names.filter((name) => name !== 'coffee' && name !== 'chelsea');

/** LibRaw's, ours: a row of the page's table of 6 x 6. */
function statedSix(name: string): number[] {
  const [, table = ''] = page.split('| 6 x 6 |');
  const line = table.split('\n').find((text) => text.startsWith(`| ${name} |`)) ?? '';
  return line.split('|').slice(2, 4).map(Number);
}

describe.skipIf(!hasShared())('demosaicing of reference photographs seen through 6 x 6 filters', () => {
  test.each(names)('%s: as good as docs/demosaic.md states, within 0.1 dB', async (name) => {
    const picture = await photograph(name);
    const ours = psnr(picture, lightOf(linearMosaic(sixFrom(picture), 'srgb', 'full').picture));
    const [, stated = 0] = statedSix(name);
    expect(Math.abs(ours - stated)).toBeLessThan(0.1);
  });

  test.skipIf(!hasDcrawEmu()).each(namesOfBoth)(
    '%s: better than LibRaw’s own way from the same mosaic',
    async (name) => {
      const picture = await photograph(name);
      const mosaic = sixFrom(picture);
      const path = join(folder, `${name}-six.dng`);
      const { values, widthPx, heightPx } = mosaic;
      const pattern = { pattern: sixFilters, patternDim: [6, 6] as const };
      const levels = { blackLevels: [0], whiteLevel: 65_535, asShotNeutral: [1, 1, 1] as const };
      writeFileSync(path, writeDng({ values, widthPx, heightPx, ...pattern, ...levels }));
      const other = psnr(picture, lightOf(dcrawEmuSensor(path, 3)));
      const own = psnr(picture, lightOf(linearMosaic(mosaic, 'srgb', 'full').picture));
      lines.push(`| ${name} | ${[other, own].map((value) => value.toFixed(1)).join(' | ')} |`);
      expect(own).toBeGreaterThan(other);
    },
  );
});
