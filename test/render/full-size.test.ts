import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  adaptWhite,
  applyMatrix,
  d50Xyz,
  deltaE2000,
  multiplyMatrices,
  rgbSpaces,
  type Vector3,
  xyToXyz,
  xyzToLab,
} from '../../src/colour/index.ts';
import { bilinearPixel } from '../../src/develop/demosaic-reference.ts';
import { linearMosaic, renderMosaic } from '../../src/develop/index.ts';
import { planDevelop, workingToSpace } from '../../src/develop/plan.ts';
import { clipHighlights } from '../../src/develop/reference.ts';
import type { Mosaic } from '../../src/facts/index.ts';
import { type Rgb8, reduceByArea, type Size } from '../../src/image/index.ts';
import { compileLook, defaultLook } from '../../src/look/index.ts';
import { renderFrame } from '../../src/stand-in/index.ts';
import { decodeRaw } from '../../src/workers/decode-raw.ts';
import { librawDecoder } from '../../src/workers/libraw-decoder.ts';
import { hasShared, sharedPath } from '../shared.ts';
import { dcrawEmuLinear, hasDcrawEmu } from './dcraw-emu.ts';

const folder = mkdtempSync(join(tmpdir(), 'setside-full-'));
afterAll(() => rmSync(folder, { recursive: true }));

const { toXyz, transfer, white } = rgbSpaces.srgb;
const toLab = multiplyMatrices(adaptWhite(xyToXyz(white), d50Xyz), toXyz);

/** Linear light of sRGB's primaries, 0 … 1, interleaved. */
interface Light extends Size {
  readonly data: Float32Array;
}

function labAt({ data, widthPx }: Light, row: number, column: number): Vector3 {
  const at = (row * widthPx + column) * 3;
  return xyzToLab(applyMatrix(toLab, [data[at] ?? 0, data[at + 1] ?? 0, data[at + 2] ?? 0]));
}

/** Mean CIEDE2000 over the part both pictures have. */
function meanDifference(one: Light, other: Light): number {
  const widthPx = Math.min(one.widthPx, other.widthPx);
  const heightPx = Math.min(one.heightPx, other.heightPx);
  let sum = 0;
  for (let row = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++) {
      sum += deltaE2000(labAt(one, row, column), labAt(other, row, column));
    }
  }
  return sum / (widthPx * heightPx);
}

function lightOf({ data, widthPx, heightPx }: Rgb8): Light {
  return { data: Float32Array.from(data, (code) => transfer.decode(code / 255)), widthPx, heightPx };
}

/** Both edges halved by area averaging in linear light. */
function halved({ data, widthPx, heightPx }: Light): Light {
  const half = { widthPx: widthPx >> 1, heightPx: heightPx >> 1 };
  return reduceByArea({ data, widthPx, heightPx, channels: 3 }, half);
}

async function mosaicOf(path: string): Promise<Mosaic> {
  return (await decodeRaw(librawDecoder(), path, undefined)).mosaic;
}

const look = compileLook(defaultLook);

describe('full size and half size of one raw are one picture', () => {
  let standIn: Mosaic;
  beforeAll(async () => {
    const path = join(folder, 'stand-in.dng');
    writeFileSync(path, (await renderFrame({ shot: 'jug', sizeMegapixels: 0.1 })).bytes);
    standIn = await mosaicOf(path);
  });

  function differenceOf(mosaic: Mosaic): number {
    const full = lightOf(renderMosaic(mosaic, look, 'full').picture);
    const half = lightOf(renderMosaic(mosaic, look, 'half').picture);
    return meanDifference(halved(full), half);
  }

  // Measured 0.85; plain binning, without bringing red and blue to the centre, was 1.4 off.
  test('a frame of the stand-in: mean dE00 under 1', () => {
    expect(differenceOf(standIn)).toBeLessThan(1);
  });

  // Measured 0.91; plain binning 2.6.
  test.skipIf(!hasShared())('a real raw: mean dE00 under 1', async () => {
    expect(differenceOf(await mosaicOf(sharedPath('samples/real-chart-4mp.dng')))).toBeLessThan(1);
  });

  test('a picture a pixel beside would be noticed', () => {
    const full = lightOf(renderMosaic(standIn, look, 'full').picture);
    const half = lightOf(renderMosaic(standIn, look, 'half').picture);
    const shifted = { ...full, data: Float32Array.from(full.data, (_, index) => full.data[index + 6] ?? 0) };
    expect(meanDifference(halved(shifted), half)).toBeGreaterThan(1.5 * meanDifference(halved(full), half));
  });
});

/**
 * `-q 0` is LibRaw's bilinear interpolation, `-q 3` its adaptive homogeneity-directed one. What else differs (the matrix, noise below black), real-chart.test.ts tells;
 * at half size it comes to 0.75.
 */
describe.skipIf(!hasShared() || !hasDcrawEmu())('full size against LibRaw’s own command line', () => {
  const path = sharedPath('samples/real-chart-4mp.dng');
  let mosaic: Mosaic;
  let other: Light;
  let best: Light;
  let own: Light;
  beforeAll(async () => {
    mosaic = await mosaicOf(path);
    other = lightOf16(dcrawEmuLinear(path, 1, 'full'));
    best = lightOf16(dcrawEmuLinear(path, 1, 'full', 3));
    own = lightOf16(linearMosaic(mosaic, 'srgb', 'full').picture);
  });

  // Measured 0.43 over the middle of the chart.
  test('our bilinear reference agrees pixel for pixel: same box, mean dE00 under 0.6', () => {
    expect(other).toMatchObject({ widthPx: mosaic.widthPx, heightPx: mosaic.heightPx });
    const box = { leftPx: 700, topPx: 450, widthPx: 300, heightPx: 200 };
    const { bin, toWorking } = planDevelop(mosaic);
    const toSrgb = multiplyMatrices(workingToSpace('srgb'), toWorking);
    const cutOwn = new Float32Array(box.widthPx * box.heightPx * 3);
    const cut = new Float32Array(cutOwn.length);
    for (let pixel = 0; pixel < box.widthPx * box.heightPx; pixel++) {
      const row = box.topPx + Math.floor(pixel / box.widthPx);
      const column = box.leftPx + (pixel % box.widthPx);
      const at = (row * other.widthPx + column) * 3;
      cutOwn.set(applyMatrix(toSrgb, clipHighlights(bilinearPixel(mosaic, bin, row, column))), pixel * 3);
      cut.set(other.data.subarray(at, at + 3), pixel * 3);
    }
    // As in 16 bits, nothing lies below 0.
    const light = { ...box, data: cutOwn.map((value) => Math.max(0, value)) };
    const difference = meanDifference(light, { ...box, data: cut });
    expect(difference).toBeLessThan(0.6);
  });

  // Measured 0.82, most of it what half size differs too (above). LibRaw's two methods are 0.23 apart here.
  test('our own full size is the same picture as LibRaw’s best: mean dE00 under 0.9 once grain is averaged out, at an eighth', () => {
    expect(meanDifference(eighth(own), eighth(best))).toBeLessThan(0.9);
  });

  // Measured 1.47 (bilinear, which keeps red's grain where ours is calmer: 1.9). LibRaw's two methods are 1.2 apart.
  test('and under 1.6 at half of it, grain and all', () => {
    expect(meanDifference(halved(own), halved(best))).toBeLessThan(1.6);
  });
});

function eighth(light: Light): Light {
  return halved(halved(halved(light)));
}

function lightOf16({ data, widthPx, heightPx }: { readonly data: Uint16Array } & Size): Light {
  return { data: Float32Array.from(data, (value) => value / 65_535), widthPx, heightPx };
}
