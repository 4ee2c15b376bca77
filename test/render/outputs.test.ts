import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { deltaE2000, type RgbSpaceName, rgbSpaceNames, type Vector3 } from '../../src/colour/index.ts';
import { neutralLook } from '../../src/look/index.ts';
import { type OutputFormat, type OutputWish, startDevelopPool } from '../../src/workers/index.ts';
import { writeDng } from './dng-writer.ts';
import { littleCms } from './little-cms.ts';

/** Profiles made by others (test/vectors/icc/README.md). */
const profiles = join(import.meta.dirname, '../vectors/icc');
const profileOf: Readonly<Record<RgbSpaceName, string>> = {
  srgb: join(profiles, 'sRGB-v4.icc'),
  'display-p3': join(profiles, 'DisplayP3-v4.icc'),
  'adobe-rgb': join(profiles, 'AdobeCompat-v2.icc'),
  rec2020: join(profiles, 'Rec2020-v4.icc'),
  romm: join(profiles, 'ProPhoto-v4.icc'),
};

const folder = mkdtempSync(join(tmpdir(), 'setside-outputs-'));
const pool = startDevelopPool({ size: 0 });
const raw = join(folder, 'patches.dng');
afterAll(async () => {
  await pool.close();
  rmSync(folder, { recursive: true });
});

/** Flat patches of 8 x 8 samples: muted to strong colours, each in steps of light. */
const columns = 12;
const rows = 9;
beforeAll(() => {
  const [widthPx, heightPx] = [columns * 8, rows * 8];
  const values = Uint16Array.from({ length: widthPx * heightPx }, (_, at) => {
    const [y, x] = [Math.floor(at / widthPx), at % widthPx];
    const channel = y % 2 === 0 ? (x % 2 === 0 ? 0 : 1) : x % 2 === 0 ? 1 : 2;
    const column = Math.floor(x / 8);
    const light = 0.5 ** (Math.floor(y / 8) / 1.5);
    const hue = 0.5 + 0.5 * Math.cos(((column % 6) / 6 + channel / 3) * 2 * Math.PI);
    const strength = column < 6 ? 0.35 : 0.95;
    const neutral = [0.5, 1, 0.625][channel] ?? 1;
    return 512 + Math.round(15_000 * light * neutral * (1 - strength + strength * hue));
  });
  writeFileSync(raw, writeDng({ widthPx, heightPx, values }));
});

let count = 0;
async function written(output: OutputWish, format: OutputFormat, path = raw): Promise<string> {
  count += 1;
  const outPath = join(folder, `${count}.${format}`);
  const kind = path === raw ? 'raw' : 'raster';
  const look = kind === 'raw' ? neutralLook : null;
  await pool.render({ path, kind, look, size: kind === 'raw' ? 'half' : 'full', format, outPath, output });
  return outPath;
}

/** The middle of each patch as codes 0 … 255, from 16 bits or 8. */
async function patches(path: string): Promise<Vector3[]> {
  const { depth } = await sharp(path).metadata();
  const isDeep = depth === 'ushort';
  const { data, info } = await sharp(path, { ignoreIcc: true })
    .toColourspace(isDeep ? 'rgb16' : 'srgb')
    .raw({ depth: isDeep ? 'ushort' : 'uchar' })
    .toBuffer({ resolveWithObject: true });
  const samples = isDeep ? new Uint16Array(data.buffer, data.byteOffset, data.length / 2) : data;
  const code = (at: number): number => (samples[at] ?? Number.NaN) / (isDeep ? 257 : 1);
  return Array.from({ length: columns * rows }, (_, patch) => {
    const [row, column] = [Math.floor(patch / columns), patch % columns];
    const at = ((row * 4 + 2) * info.width + column * 4 + 2) * 3;
    return [code(at), code(at + 1), code(at + 2)];
  });
}

/** Whether a colour lies clear of the border of its space: what was mapped into it lies on that. */
function isInside(rgb: Vector3): boolean {
  return Math.min(...rgb) > 0.5 && Math.max(...rgb) < 254.5;
}

test.each(rgbSpaceNames)(
  '%s of 16 bits is the same colour as Rec. 2020, within 0.01 dE00, as Little CMS reads both with others’ profiles',
  async (space) => {
    const own = await patches(await written({ space, depth: 16 }, 'tiff'));
    const wide = await patches(await written({ space: 'rec2020', depth: 16 }, 'tiff'));
    const ownLab = littleCms(profileOf[space], '*Lab', own);
    const wideLab = littleCms(profileOf.rec2020, '*Lab', wide);
    const inside = own.map((_, at) => at).filter((at) => isInside(own[at] ?? [0, 0, 0]));
    // Most of the strong patches lie outside sRGB; all others fit every space.
    expect(inside.length).toBeGreaterThan(40);
    for (const at of inside) {
      // Decision 19: rounding alone at 16 bits. Profiles hold their numbers to 1.5e-5.
      expect(deltaE2000(ownLab[at] ?? [0, 0, 0], wideLab[at] ?? [99, 0, 0]), `patch ${at}`).toBeLessThan(
        0.01,
      );
    }
  },
);

test.each(rgbSpaceNames)(
  '%s of 8 bits is at most one code off what Little CMS makes of Rec. 2020',
  async (space) => {
    const own = await patches(await written({ space, depth: 8 }, 'png'));
    const wide = await patches(await written({ space: 'rec2020', depth: 16 }, 'tiff'));
    const expected = littleCms(profileOf.rec2020, profileOf[space], wide);
    own.forEach((rgb, at) => {
      if (!isInside(rgb)) return;
      rgb.forEach((code, channel) => {
        expect(Math.abs(code - (expected[at]?.[channel] ?? -9)), `patch ${at}`).toBeLessThanOrEqual(1);
      });
    });
  },
);

test.each(rgbSpaceNames)(
  'the profile put into a picture of %s says what another’s says (Little CMS)',
  async (space) => {
    const colours = await patches(await written({ space, depth: 8 }, 'png'));
    for (const profileVersion of [2, 4] as const) {
      const picture = await written({ space, depth: 8, profileVersion }, 'png');
      const profile = join(folder, 'inside.icc');
      writeFileSync(profile, (await sharp(picture).metadata()).icc ?? new Uint8Array());
      const ours = littleCms(profile, '*Lab', colours);
      const others = littleCms(profileOf[space], '*Lab', colours);
      ours.forEach((lab, at) => {
        // Version 2 samples its curve (src/colour/icc-profile.ts): a tenth of a code.
        expect(deltaE2000(lab, others[at] ?? [0, 0, 0])).toBeLessThan(profileVersion === 4 ? 0.02 : 0.1);
      });
    }
  },
);

/** What ExifTool, which shares nothing with libvips, reads in a file. */
function exif(path: string): Record<string, unknown> {
  const [facts] = JSON.parse(execFileSync('exiftool', ['-j', '-n', '-G1', path]).toString());
  return facts;
}

describe('every format holds the profile, as ExifTool reads it', () => {
  test.each([
    ['jpeg', 8, 'JPEG'],
    ['webp', 8, 'Extended WEBP'],
    ['png', 8, 'PNG'],
    ['png', 16, 'PNG'],
    ['tiff', 8, 'TIFF'],
    ['tiff', 16, 'TIFF'],
    ['avif', 8, 'AVIF'],
  ] as const)('%s of %i bits', async (format, depth, type) => {
    const facts = exif(await written({ space: 'display-p3', depth }, format));
    expect(facts['File:FileType']).toBe(type);
    expect(facts['ICC_Profile:ProfileDescription']).toBe('Display P3');
    expect(facts['ICC-header:ColorSpaceData']).toBe('RGB ');
    if (format === 'tiff') expect(facts['IFD0:BitsPerSample']).toBe(`${depth} ${depth} ${depth}`);
    if (format === 'png') expect(facts['PNG:BitDepth']).toBe(depth);
    expect(facts['ExifTool:Warning']).toBeUndefined();
  });
});

describe('a profile of somebody’s own', () => {
  const profile = (name: string): Uint8Array => readFileSync(join(profiles, name));

  test('of three colourants: 16 bits are what Little CMS makes of Rec. 2020, and the profile is inside as it was', async () => {
    const space = profile('AdobeCompat-v2.icc');
    const picture = await written({ space, depth: 16 }, 'png');
    const own = await patches(picture);
    const wide = await patches(await written({ space: 'rec2020', depth: 16 }, 'tiff'));
    const expected = littleCms(profileOf.rec2020, profileOf['adobe-rgb'], wide);
    own.forEach((rgb, at) => {
      if (!isInside(rgb)) return;
      rgb.forEach((code, channel) => {
        // Sixteen bits through two curves of 16 bits: a hundredth of a code of 8.
        expect(Math.abs(code - (expected[at]?.[channel] ?? -9)), `patch ${at}`).toBeLessThan(0.05);
      });
    });
    expect(new Uint8Array((await sharp(picture).metadata()).icc ?? [])).toEqual(new Uint8Array(space));
  });

  test('what it cannot hold is mapped into it as into the standard’s space of the same colourants', async () => {
    const own = await patches(await written({ space: profile('sRGB-v4.icc'), depth: 8 }, 'png'));
    const standard = await patches(await written({ space: 'srgb', depth: 8 }, 'png'));
    expect(own.some((rgb) => !isInside(rgb))).toBe(true);
    own.forEach((rgb, at) => {
      rgb.forEach((code, channel) => {
        expect(Math.abs(code - (standard[at]?.[channel] ?? -9)), `patch ${at}`).toBeLessThanOrEqual(1);
      });
    });
  });

  test('of grey: one channel, whose lightness is that of the colour (Little CMS)', async () => {
    const picture = await written({ space: profile('sGrey-v4.icc'), depth: 8 }, 'tiff');
    expect(exif(picture)).toMatchObject({
      'IFD0:SamplesPerPixel': 1,
      'IFD0:BitsPerSample': 8,
      'ICC-header:ColorSpaceData': 'GRAY',
    });
    const { data, info } = await sharp(picture, { ignoreIcc: true })
      .toColourspace('b-w')
      .raw()
      .toBuffer({ resolveWithObject: true });
    expect(info.channels).toBe(1);
    const wide = await patches(await written({ space: 'rec2020', depth: 16 }, 'tiff'));
    const lab = littleCms(profileOf.rec2020, '*Lab', wide);
    lab.forEach(([lightness], patch) => {
      const at = (Math.floor(patch / columns) * 4 + 2) * info.width + (patch % columns) * 4 + 2;
      const grey = data[at] ?? 0;
      const [found] = littleCms(profileOf.srgb, '*Lab', [[grey, grey, grey]]);
      // Half a code of 8 bits is 0.2 of lightness.
      expect(Math.abs((found?.[0] ?? -9) - lightness), `patch ${patch}`).toBeLessThan(0.3);
    });
  });

  /** A header field of a profile written over (ICC.1:2022, 7.2). */
  function changed(offset: number, text: string): Uint8Array {
    const bytes = Uint8Array.from(profile('sRGB-v4.icc'));
    bytes.set(new TextEncoder().encode(text), offset);
    return bytes;
  }

  test.each([
    [
      'a text',
      new TextEncoder().encode('no profile, but long enough to hold a header'.repeat(5)),
      /no ICC profile/,
    ],
    ['half of one', profile('sRGB-v4.icc').subarray(0, 240), /cut short/],
    ['one for inks', changed(16, 'CMYK'), /is for CMYK; pictures are written in RGB or grey/],
    ['a device link', changed(12, 'link'), /of the class “link”/],
    ['one of 17 MiB', new Uint8Array(17 * 2 ** 20), /larger than 16 MiB/],
  ])('%s is refused, with what to give instead', async (_, space, message) => {
    const refused = written({ space, depth: 8 }, 'png');
    await expect(refused).rejects.toThrow(message);
    await expect(refused).rejects.toMatchObject({
      code: 'bad-profile',
      cure: expect.stringContaining('ICC'),
    });
  });
});

describe('finished pictures', () => {
  test('keep their colours on the way from their own profile to another (Little CMS)', async () => {
    const codes = Array.from(
      { length: columns * rows },
      (_, at): Vector3 => [20 + ((at * 37) % 210), 20 + ((at * 59) % 210), 20 + ((at * 83) % 210)],
    );
    const data = Uint8Array.from(
      Array.from({ length: rows * 4 }, (_, y) =>
        Array.from({ length: columns * 4 }, (_, x) => codes[(y >> 2) * columns + (x >> 2)] ?? []),
      ).flat(3),
    );
    const path = join(folder, 'p3.png');
    const size = { width: columns * 4, height: rows * 4, channels: 3 } as const;
    const plain = await sharp(data, { raw: size }).png().toBuffer();
    // libvips converts and tags; the codes that count are read back from the file.
    writeFileSync(path, await sharp(plain).withIccProfile(profileOf['display-p3']).png().toBuffer());
    const stored = await patches(path);
    const expected = littleCms(profileOf['display-p3'], profileOf['adobe-rgb'], stored);
    const own = await patches(await written({ space: 'adobe-rgb', depth: 16 }, 'png', path));
    own.forEach((rgb, at) => {
      if (!isInside(rgb)) return;
      rgb.forEach((code, channel) => {
        // On the way light passes 32-bit floats and two curves of 16 bits: a fifth of a code of 8 where they are steepest.
        expect(Math.abs(code - (expected[at]?.[channel] ?? -9)), `patch ${at}`).toBeLessThan(0.2);
      });
    });
  });
});
