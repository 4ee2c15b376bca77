import { expect, test } from 'vitest';
import { rgbSpaces } from '../colour/index.ts';
import type { Mosaic } from '../facts/index.ts';
import { compileLook, fitGamut, lookFunction, lookSchema } from '../look/index.ts';
import { workingToSpace } from './plan.ts';
import { renderMosaic } from './render.ts';
import { sceneMosaic } from './scene.ts';

/** Colours in blocks of eight pixels, from black to lost, turned by the file. */
function blocks(orientation: Mosaic['orientation']): Mosaic {
  const [widthPx, heightPx] = [96, 64];
  const filters = [0, 1, 1, 2] as const;
  const values = Uint16Array.from({ length: widthPx * heightPx }, (_, index) => {
    const [row, column] = [Math.floor(index / widthPx), index % widthPx];
    const block = (row >> 3) * 12 + (column >> 3);
    const filter = filters[(row % 2) * 2 + (column % 2)] ?? 1;
    const share = ((block * 37 + filter * 61) % 101) / 100;
    return Math.min(16_383, Math.round(512 + share * 1.1 * 15_871));
  });
  return {
    values,
    widthPx,
    heightPx,
    filters,
    blackLevels: [512, 512, 512, 512],
    whiteLevel: 16_383,
    asShotMultipliers: [2, 1, 1.5],
    xyzToCamera: [0.65, -0.1, -0.08, -0.4, 1.2, 0.2, -0.05, 0.2, 0.6],
    orientation,
    baselineExposureEv: 0.5,
  };
}

const look = lookSchema.parse({
  version: 2,
  title: 'test',
  exposureEv: 0.4,
  curve: { pivot: 0.18, gamma: 1.4, toeEv: 4, shoulder: 1, whiteEv: 2.8 },
});

// The exact formula against kernels and tables: one code of rounding (decision 19).
test.each(['half', 'full'] as const)('a look’s formula on the scene is the rendering, %s', (size) => {
  const mosaic = blocks(6);
  const scene = sceneMosaic(mosaic, size).picture;
  const { picture } = renderMosaic(mosaic, compileLook(look), size);
  expect([scene.widthPx, scene.heightPx]).toEqual([picture.widthPx, picture.heightPx]);
  const formula = lookFunction(look);
  const [a, b, c, d, e, f, g, h, i] = workingToSpace('srgb');
  const [, , , lr, lg, lb] = rgbSpaces.srgb.toXyz;
  let largest = 0;
  for (let at = 0; at < scene.data.length; at += 3) {
    const [x = 0, y = 0, z = 0] = scene.data.subarray(at, at + 3);
    const [r, gr, bl] = formula([x, y, z]);
    const out = [a * r + b * gr + c * bl, d * r + e * gr + f * bl, g * r + h * gr + i * bl] as const;
    fitGamut(out, [lr, lg, lb]).forEach((value, channel) => {
      const code = 255 * rgbSpaces.srgb.transfer.encode(Math.min(1, Math.max(0, value)));
      largest = Math.max(largest, Math.abs(code - (picture.data[at + channel] ?? 0)));
    });
  }
  expect(largest).toBeLessThan(1);
});

test('the scene is not cut: wide colours are below zero, lost light lies above white', () => {
  const { data } = sceneMosaic(blocks(1), 'half').picture;
  expect(data.some((value) => value < -0.01)).toBe(true);
  expect(data.some((value) => value > 1.2)).toBe(true);
});

test('a region of the scene is the part of the whole', () => {
  const mosaic = blocks(8);
  const whole = sceneMosaic(mosaic, 'full').picture;
  const region = { leftPx: 11, topPx: 17, widthPx: 30, heightPx: 40 };
  const part = sceneMosaic(mosaic, { region }).picture;
  for (let row = 0; row < 40; row++) {
    const from = ((17 + row) * whole.widthPx + 11) * 3;
    expect(part.data.subarray(row * 90, row * 90 + 90)).toEqual(whole.data.subarray(from, from + 90));
  }
});

test('reduced, the light of the scene stays as much as it was', () => {
  const mosaic = blocks(1);
  const mean = (data: Float32Array): number => data.reduce((sum, value) => sum + value, 0) / data.length;
  const half = mean(sceneMosaic(mosaic, 'half').picture.data);
  const small = sceneMosaic(mosaic, { longEdgePx: 12 }).picture;
  expect([small.widthPx, small.heightPx]).toEqual([12, 8]);
  expect(mean(small.data)).toBeCloseTo(half, 4);
});
