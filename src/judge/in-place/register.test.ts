import { describe, expect, test } from 'vitest';
import type { NoPlaceReason, PlaceShift } from '../../facts/index.ts';
import type { HalfPlane } from '../half-plane.ts';
import { gaussian } from '../testing/made-light.ts';
import { type MadeView, madeScene, strewnDiscs } from '../testing/made-scene.ts';
import { type PlacePlane, placeOfHalfPlane } from './place-plane.ts';
import { registerPlace } from './register.ts';
import { similarityAbout } from './similarity.ts';

/** A scene of discs that are moved themselves: its truth is exact. Full-size pixels. */
const full = { widthPx: 1600, heightPx: 1000 };
const discs = strewnDiscs(full.widthPx, full.heightPx, 200, 5);
const view = (how: MadeView = {}): PlacePlane =>
  placeOfHalfPlane(madeScene(discs, full.widthPx, full.heightPx, how), full, 1);
const reference = view();
const moved = (x: number, y: number, degrees = 0, scale = 1) =>
  similarityAbout(degrees, scale, { x: 0, y: 0 }, { x, y });

function known(found: PlaceShift | { readonly unknown: NoPlaceReason }): PlaceShift {
  if ('unknown' in found) throw new Error(`not told: ${found.unknown}`);
  return found;
}

describe('clean pairs', () => {
  test.each([
    [0, 0, 0, 1],
    [0.37, -0.81, 0, 1],
    [23.4, -11.7, 0, 1],
    [-180, 75.25, 0, 1],
    [-6.3, 2.9, 0.15, 1.002],
    [40.5, 31.2, -3.5, 0.97],
    [-55, 12, 9, 1.12],
  ])('%d, %d px, %d degrees, times %d: within 0.1 px', (x, y, degrees, scale) => {
    const found = known(registerPlace(view({ moved: moved(x, y, degrees, scale) }), reference, null));
    expect(Math.hypot(found.rightPx - x, found.downPx - y)).toBeLessThan(0.1);
    expect(Math.abs(found.clockwiseDegrees - degrees)).toBeLessThan(0.005);
    expect(Math.abs(found.largerPercent / 100 + 1 - scale)).toBeLessThan(1e-4);
    expect(found.confidence).toBeGreaterThan(0.9);
    expect(found.part).toBeNull();
  });
});

test('a frame that is reduced to be read is told as exactly', () => {
  const size = { widthPx: 2800, heightPx: 1800 };
  const strewn = strewnDiscs(size.widthPx, size.heightPx, 120, 8);
  const at = (how: MadeView): PlacePlane =>
    placeOfHalfPlane(madeScene(strewn, size.widthPx, size.heightPx, how), size, 1);
  expect(at({}).scalePx).toBe(4);
  const found = known(registerPlace(at({ moved: moved(33.3, -20.7, 0.3, 1.003) }), at({}), null));
  expect(Math.hypot(found.rightPx - 33.3, found.downPx + 20.7)).toBeLessThan(0.1);
});

describe('through exposure and noise', () => {
  // Noise of 1 % of saturation at full light is a signal-to-noise ratio of 35 on 18 % grey.
  test.each([
    [2, 0.01],
    [-2, 0.01],
    [2, 0],
    [-2, 0.02],
    [0, 0.04],
  ])('%d EV with noise of %d: within 0.5 px, and the error told is no lie', (ev, noise) => {
    const truth = { x: 17.3, y: -8.6, degrees: 0.4, scale: 1.005 };
    const how = { moved: moved(truth.x, truth.y, truth.degrees, truth.scale), ev, noise, seed: 11 };
    const found = known(registerPlace(view(how), view({ noise, seed: 12 }), null));
    const off = Math.hypot(found.rightPx - truth.x, found.downPx - truth.y);
    expect(off).toBeLessThan(0.5);
    expect(off).toBeLessThan(5 * found.errorPx);
    expect(Math.abs(found.clockwiseDegrees - truth.degrees)).toBeLessThan(0.02);
    expect(Math.abs(found.largerPercent / 100 + 1 - truth.scale)).toBeLessThan(5e-4);
  });
});

test('the middle of the part that counts is what the shift is told of', () => {
  const box = { left: 0.1, top: 0.1, right: 0.4, bottom: 0.5 };
  const found = known(registerPlace(view({ moved: moved(0, 0, 1, 1) }), reference, box));
  // From the middle of the frame to that of the box, turned by a degree.
  const [x, y] = [-0.25 * full.widthPx, -0.2 * full.heightPx];
  const [c, s] = [Math.cos(Math.PI / 180), Math.sin(Math.PI / 180)];
  expect(found.rightPx).toBeCloseTo(c * x - s * y - x, 0);
  expect(found.downPx).toBeCloseTo(s * x + c * y - y, 0);
  expect(found.at.x).toBeCloseTo(0.25, 6);
  expect(found.at.y).toBeCloseTo(0.3, 6);
});

test('a subject that moves on a set that stays is told by its own part', () => {
  const inside = (x: number, y: number): boolean => Math.abs(x) < 250 && Math.abs(y) < 200;
  const [ware, set] = [discs.filter(({ x, y }) => inside(x, y)), discs.filter(({ x, y }) => !inside(x, y))];
  const shifted = ware.map((disc) => ({ ...disc, x: disc.x + 17, y: disc.y - 6.5 }));
  const frame = placeOfHalfPlane(madeScene([...set, ...shifted], full.widthPx, full.heightPx), full, 1);
  const still = placeOfHalfPlane(madeScene([...set, ...ware], full.widthPx, full.heightPx), full, 1);
  const box = { left: 0.36, top: 0.33, right: 0.64, bottom: 0.67 };
  const found = known(registerPlace(frame, still, box));
  expect(Math.hypot(found.rightPx - 17, found.downPx + 6.5)).toBeLessThan(0.5);
});

test('a layout picture of another size counts as if it filled the frame', () => {
  const small = { widthPx: 1120, heightPx: 700 };
  const shrunk = discs.map((disc) => ({
    ...disc,
    x: disc.x * 0.7,
    y: disc.y * 0.7,
    radius: disc.radius * 0.7,
    rim: disc.rim * 0.7,
  }));
  const layout = placeOfHalfPlane(madeScene(shrunk, small.widthPx, small.heightPx), small, 1);
  const found = known(registerPlace(view({ moved: moved(25, -14, 1.5, 1.03) }), layout, null));
  expect(Math.hypot(found.rightPx - 25, found.downPx + 14)).toBeLessThan(0.5);
  expect(found.clockwiseDegrees).toBeCloseTo(1.5, 2);
  expect(found.largerPercent).toBeCloseTo(3, 1);
});

test('a raw that was stored turned is read as it is seen', () => {
  // Exif 2.32, orientation 6: turned by 90 degrees clockwise to be upright, so (x, y) as seen is stored at (y, -x).
  const stored = { widthPx: 1000, heightPx: 1600 };
  const turned = (all: typeof discs) => all.map((disc) => ({ ...disc, x: disc.y, y: -disc.x }));
  const seen = discs.map((disc) => ({ ...disc, x: disc.x + 12.5, y: disc.y - 7.25 }));
  const frame = placeOfHalfPlane(madeScene(turned(seen), stored.widthPx, stored.heightPx), stored, 6);
  expect([frame.fullWidthPx, frame.fullHeightPx]).toEqual([1600, 1000]);
  const found = known(registerPlace(frame, reference, null));
  expect(found.rightPx).toBeCloseTo(12.5, 1);
  expect(found.downPx).toBeCloseTo(-7.25, 1);
});

describe('what cannot be told has its reason', () => {
  const flat = (light: number, noise = 0, seed = 1, size = { widthPx: 600, heightPx: 400 }): PlacePlane => {
    const random = gaussian(seed);
    const data = Float32Array.from({ length: size.widthPx * size.heightPx }, () => light + noise * random());
    return placeOfHalfPlane({ data, ...size }, { widthPx: 2 * size.widthPx, heightPx: 2 * size.heightPx }, 1);
  };
  const reasonOf = (frame: PlacePlane, against: PlacePlane): string => {
    const found = registerPlace(frame, against, null);
    return 'unknown' in found ? found.unknown : 'told';
  };
  const pattern = (light: (x: number, y: number) => number, shift = 0): PlacePlane => {
    const [widthPx, heightPx] = [600, 400];
    const data = Float32Array.from({ length: widthPx * heightPx }, (_, at) =>
      light((at % widthPx) + shift, Math.floor(at / widthPx)),
    );
    const plane: HalfPlane = { data, widthPx, heightPx };
    return placeOfHalfPlane(plane, { widthPx: 1200, heightPx: 800 }, 1);
  };

  test('black, white, and noise alone: no structure', () => {
    for (const light of [0, 1]) expect(reasonOf(flat(light), reference)).toBe('no-structure');
    expect(reasonOf(reference, flat(0))).toBe('no-structure');
    expect(reasonOf(flat(0.2, 0.02, 3), flat(0.2, 0.02, 4))).toBe('no-structure');
  });

  test('a pixel, nothing at all, and values that are no numbers', () => {
    expect(reasonOf(flat(1, 0, 1, { widthPx: 1, heightPx: 1 }), reference)).toBe('too-small');
    expect(reasonOf(flat(1, 0, 1, { widthPx: 0, heightPx: 0 }), reference)).toBe('too-small');
    expect(reasonOf(reference, flat(1, 0, 1, { widthPx: 900, heightPx: 3 }))).toBe('too-small');
    expect(reasonOf(flat(Number.NaN), reference)).toBe('no-structure');
  });

  test('another picture, and one that is upright', () => {
    const others = [21, 22, 23].map((seed) =>
      placeOfHalfPlane(madeScene(strewnDiscs(1600, 1000, 200, seed), 1600, 1000), full, 1),
    );
    for (const other of others) expect(reasonOf(other, reference)).toBe('other-picture');
    const upright = { widthPx: 1000, heightPx: 1600 };
    const frame = placeOfHalfPlane(madeScene(discs, upright.widthPx, upright.heightPx), upright, 1);
    expect(reasonOf(frame, reference)).toBe('other-orientation');
  });

  test('stripes one way, and a pattern that repeats', () => {
    const stripes = (x: number): number => 0.3 + 0.2 * Math.sin(x / 5) + 0.1 * Math.sin(x / 3.1);
    expect(reasonOf(pattern(stripes, 3), pattern(stripes))).toBe('one-direction');
    const dots = (x: number, y: number): number => 0.3 + 0.2 * Math.sin(x / 6) * Math.sin(y / 6);
    expect(reasonOf(pattern(dots, 9), pattern(dots))).toBe('repeating');
  });
});
