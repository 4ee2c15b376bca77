import { expect, test } from 'vitest';
import type { LensCorrections, LensStep, Mosaic } from '../../facts/index.ts';
import { compileLook, neutralLook } from '../../look/index.ts';
import { cameraLight, cameraWork } from '../camera-light.ts';
import { cameraWindow } from '../local/window-light.ts';
import { plainCameraKernels } from '../plain-kernels.ts';
import { planDevelop } from '../plan.ts';
import type { FramePlan } from '../plan-frame.ts';
import { renderMosaic } from '../render.ts';

/** A mosaic of what is drawn at (x, y), 0 … 1, alike in all colours. */
function mosaicOf(widthPx: number, heightPx: number, light: (x: number, y: number) => number): Mosaic {
  return {
    values: Uint16Array.from({ length: widthPx * heightPx }, (_, at) =>
      Math.round(1000 + 60_000 * light(at % widthPx, Math.floor(at / widthPx))),
    ),
    widthPx,
    heightPx,
    filters: [0, 1, 1, 2],
    blackLevels: [1000, 1000, 1000, 1000],
    whiteLevel: 61_000,
    asShotMultipliers: [1, 1, 1],
    xyzToCamera: null,
    orientation: 1,
    baselineExposureEv: 0,
  };
}

const look = compileLook(neutralLook);

function lensOf(steps: readonly LensStep[], widthPx: number, heightPx: number): LensCorrections {
  return { area: { widthPx, heightPx }, leftPx: 0, topPx: 0, samples: [], steps };
}

const barrel: LensStep = {
  kind: 'warp',
  centre: [0.5, 0.5],
  planes: [{ radial: [1, 0, 0.08], tangential: [0, 0], range: [0, 9], isReciprocal: false }],
};

test('a step that does nothing leaves the picture as it is, to the code, at half size and full', () => {
  const mosaic = mosaicOf(64, 48, (x, y) => 0.2 + 0.3 * (((x * 13 + y * 29) % 17) / 17));
  const still: LensStep = {
    kind: 'warp',
    centre: [0.5, 0.5],
    planes: [{ radial: [1], tangential: [0, 0], range: [0, 9], isReciprocal: false }],
  };
  for (const size of ['half', 'full'] as const) {
    const plain = renderMosaic(mosaic, look, size).picture.data;
    const corrected = renderMosaic({ ...mosaic, lens: lensOf([still], 64, 48) }, look, size).picture.data;
    // A whole pixel found with 1e-15 beside it may round the other way.
    corrected.forEach((code, at) => {
      expect(Math.abs(code - (plain[at] ?? 0))).toBeLessThanOrEqual(1);
    });
  }
});

/** Columns of a row at which the picture crosses half its light, to a fraction of a pixel. */
function crossings(data: Uint8Array, widthPx: number, row: number, level = 100): number[] {
  const found: number[] = [];
  for (let column = 0; column + 1 < widthPx; column++) {
    const [a, b] = [
      data[(row * widthPx + column) * 3 + 1] ?? 0,
      data[(row * widthPx + column + 1) * 3 + 1] ?? 0,
    ];
    if ((a < level && b >= level) || (a >= level && b < level)) found.push(column + (level - a) / (b - a));
  }
  return found;
}

test('lines that a lens bent are straight again, at half size and full (WarpRectilinear of DNG 1.7.1, chapter 7)', () => {
  const [widthPx, heightPx] = [480, 320];
  const [cx, cy] = [(widthPx - 1) / 2, (heightPx - 1) / 2];
  const unit = Math.hypot(cx, cy);
  // The lens's own way is the inverse of the correction, found by repetition: where is (x, y) of the sensor shown?
  const shownAt = (x: number, y: number): number => {
    let [u, v] = [(x - cx) / unit, (y - cy) / unit];
    const [du, dv] = [u, v];
    for (let round = 0; round < 30; round++) {
      const f = 1 + 0.08 * (u * u + v * v);
      [u, v] = [du / f, dv / f];
    }
    return cx + u * unit;
  };
  const stripes = mosaicOf(
    widthPx,
    heightPx,
    (x, y) => 0.25 + 0.2 * Math.sin((shownAt(x, y) * 2 * Math.PI) / 40),
  );
  const bent = renderMosaic(stripes, look, 'full').picture;
  const lens = lensOf([barrel], widthPx, heightPx);
  for (const size of ['full', 'half'] as const) {
    const straight = renderMosaic({ ...stripes, lens }, look, size).picture;
    const rows = [0.1, 0.3, 0.5, 0.7, 0.9].map((share) => Math.round(share * (straight.heightPx - 1)));
    const lines = rows.map((row) => crossings(straight.data, straight.widthPx, row));
    // Of straight vertical lines every row has the same crossings: within a twentieth of a pixel.
    const middle = lines[2] ?? [];
    expect(middle.length).toBeGreaterThan(20);
    for (const line of lines) {
      for (const x of middle.slice(2, -2)) {
        const nearest = Math.min(...line.map((other) => Math.abs(other - x)));
        expect(nearest, `${size}`).toBeLessThan(0.06);
      }
    }
  }
  // And they were not so before.
  const [top = [], centreLine = []] = [16, 160].map((row) => crossings(bent.data, widthPx, row));
  expect(Math.max(...top.slice(0, 3).map((x, i) => Math.abs(x - (centreLine[i] ?? 0))))).toBeGreaterThan(1);
});

test('falloff that the given polynomial describes is evened out', () => {
  const [widthPx, heightPx] = [240, 160];
  const [cx, cy] = [(widthPx - 1) / 2, (heightPx - 1) / 2];
  const unit = Math.hypot(cx, cy);
  const gainAt = (x: number, y: number): number => 1 + 0.9 * (((x - cx) ** 2 + (y - cy) ** 2) / unit ** 2);
  const dark = mosaicOf(widthPx, heightPx, (x, y) => 0.4 / gainAt(x, y));
  const even: LensStep = { kind: 'radial-gain', k: [0.9, 0, 0, 0, 0], centre: [0.5, 0.5] };
  const { data } = renderMosaic({ ...dark, lens: lensOf([even], widthPx, heightPx) }, look, 'full').picture;
  const greens = [...data].filter((_, at) => at % 3 === 1);
  expect(Math.max(...greens) - Math.min(...greens)).toBeLessThanOrEqual(1);
});

test('a corner that was raised is not taken for lost light', () => {
  const mosaic = mosaicOf(64, 48, () => 0.7);
  const raise: LensStep = { kind: 'radial-gain', k: [0.9, 0, 0, 0, 0], centre: [0.5, 0.5] };
  const warm: Mosaic = {
    ...mosaic,
    baselineExposureEv: -2,
    asShotMultipliers: [1, 1, 2],
    lens: lensOf([raise], 64, 48),
  };
  const { data } = renderMosaic(warm, look, 'full').picture;
  // Blue is balanced to twice the others; what is not lost keeps its colour into the corner, however bright.
  expect((data[2] ?? 0) > (data[1] ?? 0)).toBe(true);
});

test('windows in any order hold the light that rows from the top hold', () => {
  const mosaic = mosaicOf(120, 90, (x, y) => 0.2 + 0.5 * (((x * 7 + y * 13) % 31) / 31));
  const lens: LensCorrections = { ...lensOf([barrel], 140, 110), leftPx: 10, topPx: 12 };
  const corrected = { ...mosaic, lens };
  const plan = planDevelop(corrected);
  for (const from of ['half', 'full'] as const) {
    const whole = from === 'half' ? { widthPx: 60, heightPx: 45 } : { widthPx: 120, heightPx: 90 };
    const frame: FramePlan = { from, window: { leftPx: 0, topPx: 0, ...whole }, target: whole };
    const kernels = plainCameraKernels(cameraWork(corrected, plan.bin, frame));
    cameraLight(corrected, plan.bin, frame, kernels)(0, whole.heightPx);
    const window = { leftPx: 21, topPx: 5, widthPx: 17, heightPx: 30 };
    const light = new Float32Array(17 * 30 * 3);
    cameraWindow(corrected, plan, from)(window, light);
    for (let row = 0; row < 30; row++) {
      const start = ((5 + row) * whole.widthPx + 21) * 3;
      light.subarray(row * 51, row * 51 + 51).forEach((value, at) => {
        expect(value).toBeCloseTo(kernels.strip[start + at] ?? Number.NaN, 4);
      });
    }
  }
});

test('a region of a corrected picture is the part of the whole', () => {
  const mosaic = mosaicOf(160, 120, (x, y) => 0.2 + 0.5 * (((x * 7 + y * 13) % 31) / 31));
  const lens: LensCorrections = { ...lensOf([barrel], 200, 150), leftPx: 12, topPx: 8 };
  const whole = renderMosaic({ ...mosaic, lens }, look, 'full').picture;
  const region = { leftPx: 90, topPx: 10, widthPx: 50, heightPx: 40 };
  const part = renderMosaic({ ...mosaic, lens }, look, { region }).picture;
  for (let row = 0; row < 40; row++) {
    const from = ((10 + row) * 160 + 90) * 3;
    expect(part.data.slice(row * 150, row * 150 + 150)).toEqual(whole.data.slice(from, from + 150));
  }
});
