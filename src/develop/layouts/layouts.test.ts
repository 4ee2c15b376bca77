import { expect, test } from 'vitest';
import type { Mosaic } from '../../facts/index.ts';
import { compileLook, neutralLook } from '../../look/index.ts';
import { findHotPixels } from '../hot-pixels.ts';
import { estimateNoise } from '../noise-profile.ts';
import { planDevelop } from '../plan.ts';
import { renderMosaic } from '../render.ts';
import { layoutRows } from './layout-rows.ts';
import { sixReference } from './six-reference.ts';
import { lightOf, sixRows } from './six-rows.ts';
import { meanTaps } from './six-taps.ts';

/** The 6 x 6 pattern of the trade: green in every row, column and diagonal's reach (common practice, no source). */
const filters = [
  1, 2, 1, 1, 0, 1, 0, 1, 0, 2, 1, 2, 1, 2, 1, 1, 0, 1, 1, 0, 1, 1, 2, 1, 2, 1, 2, 0, 1, 0, 1, 0, 1, 1, 2, 1,
];

function rawOf(
  values: Uint16Array,
  widthPx: number,
  layout: NonNullable<Mosaic['layout']>,
  multipliers: Mosaic['asShotMultipliers'] = [1, 1, 1],
): Mosaic {
  const samples = layout.kind === 'linear' ? 3 : 1;
  return {
    values,
    widthPx,
    heightPx: values.length / widthPx / samples,
    filters: [0, 1, 1, 2],
    blackLevels: [512, 512, 512, 512],
    whiteLevel: 16_000,
    asShotMultipliers: multipliers,
    xyzToCamera: null,
    orientation: 1,
    baselineExposureEv: 0,
    layout,
  };
}

/** Smooth light with noise on it, by a fixed generator. */
function noisy(count: number): Uint16Array {
  let state = 12_345;
  return Uint16Array.from({ length: count }, (_, at) => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return 600 + Math.round(6000 + 5000 * Math.sin(at / 37) + (state / 2_147_483_648) * 3000);
  });
}

const look = compileLook(neutralLook);

test('the demosaic of 6 x 6 in planes agrees with the reference, in rows of any number and any window', () => {
  const mosaic = rawOf(noisy(40 * 30), 40, { kind: 'six', filters }, [1.8, 1, 1.4]);
  const { bin } = planDevelop(mosaic);
  const reference = sixReference({ filters, ...lightOf(mosaic, filters, bin) });
  for (const window of [
    { leftPx: 0, topPx: 0, widthPx: 40, heightPx: 30 },
    { leftPx: 7, topPx: 5, widthPx: 20, heightPx: 11 },
  ]) {
    const rows = sixRows(mosaic, filters, bin, window);
    const out = new Float32Array(window.widthPx * 3 * 4);
    for (let row = 0; row < window.heightPx; row += 4) {
      const end = Math.min(window.heightPx, row + 4);
      rows(row, end, out);
      for (let y = row; y < end; y++) {
        for (let x = 0; x < window.widthPx; x++) {
          reference(window.topPx + y, window.leftPx + x).forEach((value, channel) => {
            expect(out[((y - row) * window.widthPx + x) * 3 + channel]).toBeCloseTo(value, 4);
          });
        }
      }
    }
  }
});

test('every place has samples of every colour near, and weights add up to one', () => {
  const bell = { rows: 1, columns: 4, sigmaRow: 0.9, sigmaColumn: 2 };
  for (let place = 0; place < 36; place++) {
    for (const colour of [0, 1, 2]) {
      const taps = meanTaps(filters, Math.floor(place / 6), place % 6, colour, bell);
      expect(taps.length).toBeGreaterThan(0);
      expect(taps.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
    }
  }
});

test('an even surface of any colour is even, in 6 x 6, at both sizes', () => {
  const values = Uint16Array.from({ length: 48 * 48 }, (_, at) => {
    const colour = filters[(Math.floor(at / 48) % 6) * 6 + ((at % 48) % 6)] ?? 1;
    return 512 + ([3000, 8000, 5000][colour] ?? 0);
  });
  const mosaic = rawOf(values, 48, { kind: 'six', filters });
  for (const size of ['full', 'half'] as const) {
    const { data } = renderMosaic(mosaic, look, size).picture;
    for (let channel = 0; channel < 3; channel++) {
      const codes = [...data].filter((_, at) => at % 3 === channel);
      expect(Math.max(...codes) - Math.min(...codes)).toBeLessThanOrEqual(1);
    }
  }
});

test('grey is neutral, exactly what its samples say, and half size the mean of four', () => {
  const mosaic = rawOf(noisy(24 * 18), 24, { kind: 'grey' });
  const { bin, issues } = planDevelop(mosaic);
  expect(issues).toEqual([]);
  const window = { leftPx: 0, topPx: 0, widthPx: 12, heightPx: 9 };
  const half = new Float32Array(12 * 9 * 3);
  layoutRows(mosaic, { kind: 'grey' }, bin, { from: 'half', window })(0, 9, half);
  const light = (y: number, x: number): number => ((mosaic.values[y * 24 + x] ?? 0) - 512) / (16_000 - 512);
  const mean = (light(4, 6) + light(4, 7) + light(5, 6) + light(5, 7)) / 4;
  expect(half[(2 * 12 + 3) * 3 + 1]).toBeCloseTo(mean, 6);
  const { data } = renderMosaic(mosaic, look, 'full').picture;
  for (let at = 0; at < data.length; at += 3) expect(new Set(data.subarray(at, at + 3)).size).toBe(1);
});

test('three samples a pixel are balanced and shown as they are', () => {
  const values = Uint16Array.from({ length: 8 * 6 * 3 }, (_, at) => 512 + ([4000, 8000, 5000][at % 3] ?? 0));
  const mosaic = rawOf(values, 8, { kind: 'linear' }, [2, 1, 1.6]);
  const { data } = renderMosaic(mosaic, look, 'full').picture;
  // 4000 x 2 = 8000 = 5000 x 1.6: neutral.
  for (let at = 0; at < data.length; at += 3) {
    expect(
      Math.max(...data.subarray(at, at + 3)) - Math.min(...data.subarray(at, at + 3)),
    ).toBeLessThanOrEqual(1);
  }
});

test.each(['six', 'grey', 'linear'] as const)(
  'a region of %s is the part of the whole, to the code',
  (kind) => {
    const layout = kind === 'six' ? { kind, filters } : { kind };
    const mosaic = rawOf(noisy(60 * 130 * (kind === 'linear' ? 3 : 1)), 60, layout);
    const whole = renderMosaic(mosaic, look, 'full').picture;
    const region = { leftPx: 11, topPx: 90, widthPx: 30, heightPx: 33 };
    const part = renderMosaic(mosaic, look, { region }).picture;
    for (let row = 0; row < 33; row++) {
      const from = ((90 + row) * 60 + 11) * 3;
      expect(part.data.slice(row * 90, row * 90 + 90)).toEqual(whole.data.slice(from, from + 90));
    }
  },
);

test('what is told from 2 x 2 mosaics is not told of others', () => {
  const mosaic = rawOf(noisy(600 * 400), 600, { kind: 'six', filters });
  expect(estimateNoise(mosaic)).toBeNull();
  expect(findHotPixels(mosaic)).toEqual([]);
});
