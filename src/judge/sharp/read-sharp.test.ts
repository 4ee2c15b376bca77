import { expect, test } from 'vitest';
import { halfPlaneOf } from '../half-plane.ts';
import type { LightGrid } from '../light-grid.ts';
import { gaussian, type MadeEdge, madeEdge } from '../testing/made-light.ts';
import { readSharp } from './read-sharp.ts';

/** Of a Gaussian edge: 10-90 % rise 2 · 1.28155 sigma, MTF50 sqrt(ln 2 / 2) / (π sigma); the made edges have no pixel aperture. */
const risePerSigma = 2.5631;
const mtf50TimesSigma = Math.sqrt(Math.LN2 / 2) / Math.PI;

const read = (grid: LightGrid) => readSharp(grid, halfPlaneOf(grid), { source: 'raw', spot: null });

const sigmas = [0.5, 0.7, 1, 1.4, 2, 2.8, 4];
const clean: MadeEdge[] = sigmas.flatMap((sigmaPx) =>
  [5, 80, 163].flatMap((degrees) =>
    ([-1, 1] as const).map((greenParity) => ({ sigmaPx, degrees, greenParity, noise: 0 })),
  ),
);

test('clean edges are read within 3 % of what a Gaussian blur of 0.5 to 4 px makes of them', () => {
  for (const edge of clean) {
    const found = read(madeEdge(edge)).atSpot;
    const label = JSON.stringify(edge);
    expect(found?.sigmaPx, label).toBeGreaterThan(edge.sigmaPx * 0.97);
    expect(found?.sigmaPx, label).toBeLessThan(edge.sigmaPx * 1.03);
    expect(Math.abs((found?.widthPx ?? 0) / (risePerSigma * edge.sigmaPx) - 1), label).toBeLessThan(0.03);
    expect(Math.abs(((found?.mtf50 ?? 0) * edge.sigmaPx) / mtf50TimesSigma - 1), label).toBeLessThan(0.03);
  }
});

test('edges 20 times as high as their noise are read within 10 %', () => {
  for (const edge of clean) {
    const found = read(madeEdge({ ...edge, noise: 400 })).atSpot;
    const label = JSON.stringify(edge);
    expect(Math.abs((found?.widthPx ?? 0) / (risePerSigma * edge.sigmaPx) - 1), label).toBeLessThan(0.1);
    expect(Math.abs(((found?.mtf50 ?? 0) * edge.sigmaPx) / mtf50TimesSigma - 1), label).toBeLessThan(0.1);
    expect(found?.snr, label).toBeGreaterThan(17);
    expect(found?.snr, label).toBeLessThan(23);
  }
});

test('noise alone, a smooth slope and a flat field have no edge: nothing is read', () => {
  const random = gaussian(5);
  const made = (value: (x: number, y: number) => number): LightGrid => ({
    ...madeEdge({ sigmaPx: 1, degrees: 5, noise: 0, greenParity: 1 }),
    values: Uint16Array.from({ length: 40_000 }, (_, at) =>
      Math.round(value(at % 200, Math.floor(at / 200))),
    ),
  });
  const nothing = [() => 5000, () => 5000 + 300 * random(), (x: number) => 2000 + 20 * x];
  for (const value of nothing) expect(read(made(value)).atSpot).toBeNull();
});

test('a grating of fine lines is no straight edge that stands alone', () => {
  const grid = madeEdge({ sigmaPx: 1, degrees: 5, noise: 0, greenParity: -1 });
  const values = Uint16Array.from({ length: 40_000 }, (_, at) =>
    Math.round(6000 + 3000 * Math.sin(((at % 200) + Math.floor(at / 200) * 0.1) * 1.1)),
  );
  expect(read({ ...grid, values }).atSpot).toBeNull();
});

test('an edge whose bright side is lost is not read: it would seem sharper than it is', () => {
  const grid = madeEdge({ sigmaPx: 2, degrees: 5, noise: 0, greenParity: 1 });
  expect(
    read({ ...grid, values: grid.values.map((value) => Math.min(value, 8000)), saturation: 7490 }).atSpot,
  ).toBeNull();
});

test('a given spot is what is spoken of, and what is sharper beside it is named', () => {
  const [soft, sharp] = [4, 0.7].map((sigmaPx) =>
    madeEdge({ sigmaPx, degrees: 10, noise: 20, greenParity: 1 }),
  );
  const values = new Uint16Array(400 * 200);
  for (let y = 0; y < 200; y++) {
    for (let x = 0; x < 400; x++) {
      values[y * 400 + x] = (x < 200 ? soft : sharp)?.values[y * 200 + (x % 200)] ?? 0;
    }
  }
  const grid: LightGrid = {
    ...madeEdge({ sigmaPx: 1, degrees: 5, noise: 0, greenParity: 1 }),
    values,
    widthPx: 400,
  };
  const spot = { left: 0.1, top: 0.1, right: 0.4, bottom: 0.9, teller: 'given' as const };
  const reading = readSharp(grid, halfPlaneOf(grid), { source: 'raw', spot });
  expect(reading.spot?.teller).toBe('given');
  expect(reading.atSpot?.sigmaPx).toBeCloseTo(4, 0);
  expect(reading.elsewhere?.sigmaPx).toBeCloseTo(0.7, 1);
  expect(reading.elsewhere?.left).toBeGreaterThan(0.4);
  const free = readSharp(grid, halfPlaneOf(grid), { source: 'raw', spot: null });
  expect(free.spot?.teller).toBe('sharpest');
  expect(free.atSpot?.sigmaPx).toBeCloseTo(0.7, 1);
});

test('pixels of a preview are counted in those of the full-size frame', () => {
  const grid = madeEdge({ sigmaPx: 1, degrees: 5, noise: 0, greenParity: -1 });
  const plane = halfPlaneOf(grid);
  const small = readSharp(grid, plane, { source: 'preview', spot: null, scale: 4 }).atSpot;
  expect(small?.widthPx).toBeCloseTo(4 * risePerSigma, 1);
  expect(small?.mtf50).toBeCloseTo(mtf50TimesSigma / 4, 3);
});

test('the profile beside the figure rises from 0 to 1 as a Gaussian edge does, whichever side is the dark one', () => {
  for (const degrees of [5, 185, 95, 275]) {
    const grid = madeEdge({ sigmaPx: 1.4, degrees, noise: 40, greenParity: 1 });
    const { profile, atSpot } = read(grid);
    if (profile === null || atSpot === null) throw new Error('expected an edge');
    // At 10 % and 90 % of a Gaussian: 1.28155 sigma on both sides.
    expect(profile.tenPx).toBeCloseTo(-1.28155 * 1.4, 1);
    expect(profile.ninetyPx).toBeCloseTo(1.28155 * 1.4, 1);
    expect(Math.abs(profile.ninetyPx - profile.tenPx - atSpot.widthPx)).toBeLessThan(0.15);
    const at = (px: number): number =>
      profile.heights[Math.round((px - profile.fromPx) / profile.stepPx)] ?? Number.NaN;
    // Φ(-2) = 0.0228, Φ(2) = 0.9772 (tables of the normal distribution).
    expect(at(-2.8)).toBeCloseTo(0.023, 1);
    expect(Math.abs(at(0) - 0.5)).toBeLessThan(0.06);
    expect(at(2.8)).toBeCloseTo(0.977, 1);
    // The edge goes through the middle of the picture, half a pixel aside.
    expect(Math.hypot(profile.x - 0.5, profile.y - 0.5)).toBeLessThan(0.45);
    expect(Math.abs(((profile.acrossDegrees - degrees + 270) % 180) - 90)).toBeLessThan(0.5);
  }
});
