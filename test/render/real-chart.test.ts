import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, describe, expect, test } from 'vitest';
import {
  adaptWhite,
  applyMatrix,
  d50Xyz,
  deltaE2000,
  multiplyMatrices,
  type RgbSpaceName,
  rgbSpaces,
  type Vector3,
  xyToXyz,
  xyzToLab,
} from '../../src/colour/index.ts';
import { defaultLook } from '../../src/look/index.ts';
import { startDevelopPool } from '../../src/workers/index.ts';
import { hasShared, sharedPath } from '../shared.ts';
import { dcrawEmuLinear, hasDcrawEmu, type LinearPicture } from './dcraw-emu.ts';

const chart = sharedPath('samples/real-chart-4mp.dng');
const folder = mkdtempSync(join(tmpdir(), 'setside-chart-'));
const pool = startDevelopPool({ size: 0 });
afterAll(async () => {
  await pool.close();
  rmSync(folder, { recursive: true });
});

/** The job `linear`, read back by libvips. */
async function ownLinear(space: RgbSpaceName): Promise<LinearPicture> {
  const outPath = join(folder, `${space}.tif`);
  const answer = await pool.linear({ path: chart, space, outPath });
  expect(answer).toMatchObject({ widthPx: 1734, heightPx: 1156, issues: [] });
  const { data, info } = await sharp(outPath, { ignoreIcc: true })
    .toColourspace('rgb16')
    .raw({ depth: 'ushort' })
    .toBuffer({ resolveWithObject: true });
  return {
    data: new Uint16Array(data.buffer, data.byteOffset, data.length / 2),
    widthPx: info.width,
    heightPx: info.height,
  };
}

interface Difference {
  readonly mean: number;
  readonly percentile95: number;
}

/** CIEDE2000 over every pixel of the part both pictures have. */
function difference(own: LinearPicture, other: LinearPicture, space: RgbSpaceName): Difference {
  const { toXyz, white } = rgbSpaces[space];
  const matrix = multiplyMatrices(adaptWhite(xyToXyz(white), d50Xyz), toXyz);
  const labAt = ({ data, widthPx }: LinearPicture, row: number, column: number): Vector3 => {
    const at = (row * widthPx + column) * 3;
    const light = (channel: number): number => (data[at + channel] ?? 0) / 65_535;
    return xyzToLab(applyMatrix(matrix, [light(0), light(1), light(2)]));
  };
  const found: number[] = [];
  for (let row = 0; row < Math.min(own.heightPx, other.heightPx); row++) {
    for (let column = 0; column < Math.min(own.widthPx, other.widthPx); column++) {
      found.push(deltaE2000(labAt(own, row, column), labAt(other, row, column)));
    }
  }
  found.sort((a, b) => a - b);
  const mean = found.reduce((sum, value) => sum + value, 0) / found.length;
  return { mean, percentile95: found[Math.floor(found.length * 0.95)] ?? Number.NaN };
}

/**
 * Where the two are expected to differ: LibRaw takes the file's one matrix as measured under D65 and balances in camera
 * space; we follow the DNG specification, find the white of the shot from its neutral and adapt it to D65 by Bradford.
 * LibRaw also cuts noise below black at 0 before the matrix, we after it. Both put 65,535 where the first channel
 * saturates once balanced, and both subtract the black and white levels of the file.
 */
describe.skipIf(!hasShared() || !hasDcrawEmu())('a real raw against LibRaw’s own command line', () => {
  // Measured: mean 0.75, 95th percentile 1.8.
  test('half-size linear light in sRGB’s primaries agrees: same box, mean dE00 under 1', async () => {
    const own = await ownLinear('srgb');
    const other = dcrawEmuLinear(chart, 1);
    expect(Math.abs(own.widthPx - other.widthPx)).toBeLessThanOrEqual(2);
    expect(Math.abs(own.heightPx - other.heightPx)).toBeLessThanOrEqual(2);
    const { mean, percentile95 } = difference(own, other, 'srgb');
    expect(mean).toBeLessThan(1);
    expect(percentile95).toBeLessThan(2.5);
  });

  test('the same in ROMM RGB, which holds every colour of the chart', async () => {
    const { mean } = difference(await ownLinear('romm'), dcrawEmuLinear(chart, 4), 'romm');
    expect(mean).toBeLessThan(2);
  });

  test('a mirrored copy would be noticed: orientation is part of the agreement', async () => {
    const own = await ownLinear('srgb');
    const mirrored = { ...own, data: own.data.slice().reverse() };
    expect(difference(mirrored, dcrawEmuLinear(chart, 1), 'srgb').mean).toBeGreaterThan(5);
  });
});

describe.skipIf(!hasShared())('the rendering of a real raw', () => {
  test.each([
    ['jpeg', 'image/jpeg'],
    ['webp', 'image/webp'],
    ['png', 'image/png'],
  ] as const)(
    'is a sound %s with an sRGB profile that ExifTool and Little CMS read',
    async (format, mime) => {
      const outPath = join(folder, `chart.${format}`);
      const answer = await pool.render({
        path: chart,
        kind: 'raw',
        look: defaultLook,
        size: 'half',
        format,
        outPath,
      });
      expect(answer).toMatchObject({
        renderedWidthPx: 867,
        renderedHeightPx: 578,
        bytes: readFileSync(outPath).length,
      });
      const [facts] = JSON.parse(
        execFileSync('exiftool', [
          '-j',
          '-n',
          '-MIMEType',
          '-ImageSize',
          '-ColorSpaceData',
          '-ProfileConnectionSpace',
          outPath,
        ]).toString(),
      );
      expect(facts).toMatchObject({ MIMEType: mime, ImageSize: '867 578', ColorSpaceData: 'RGB ' });
      const profile = join(folder, `chart-${format}.icc`);
      const { icc } = await sharp(outPath).metadata();
      writeFileSync(profile, icc ?? new Uint8Array());
      const lab = execFileSync('transicc', ['-i', profile, '-o', '*Lab', '-t1', '-n'], {
        input: '127.5\n127.5\n127.5\n',
        stdio: ['pipe', 'pipe', 'ignore'],
      });
      // Half-way grey of sRGB by hand: linear 0.2140 (IEC 61966-2-1), L* 116 cbrt(0.2140) - 16 = 53.39 (CIE 15).
      const [L, a, b] = lab.toString().trim().split(/\s+/).map(Number);
      expect(deltaE2000([L ?? 0, a ?? 0, b ?? 0], [53.39, 0, 0])).toBeLessThan(0.1);
    },
  );

  test('is reduced by area: a long edge of 300 px is the half-size picture averaged', async () => {
    const base = join(folder, 'base.png');
    const small = join(folder, 'small.png');
    const again = join(folder, 'again.png');
    const common = { path: chart, kind: 'raw', look: defaultLook, format: 'png' } as const;
    await pool.render({ ...common, size: 'half', outPath: base });
    await pool.render({ ...common, size: { longEdgePx: 300 }, outPath: small });
    const answer = await pool.resize({ path: base, longEdgePx: 300, format: 'png', outPath: again });
    expect(answer).toMatchObject({ widthPx: 867, renderedWidthPx: 300, renderedHeightPx: 200 });
    const [direct, resized] = await Promise.all([small, again].map((path) => sharp(path).raw().toBuffer()));
    const worst = direct?.reduce((most, code, i) => Math.max(most, Math.abs(code - (resized?.[i] ?? 0))), 0);
    expect(worst).toBeLessThanOrEqual(1);
  });
});
