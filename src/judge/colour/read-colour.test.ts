import { describe, expect, test } from 'vitest';
import {
  adaptWhite,
  d50Xyz,
  d65Xyz,
  invertMatrix,
  type Matrix3,
  multiplyMatrices,
  rgbSpaces,
} from '../../colour/index.ts';
import type { Mosaic, TargetReading } from '../../facts/index.ts';
import { type MadeTarget, madeTargetPicture } from '../testing/made-target.ts';
import { type MadeCamera, mosaicOfPicture } from '../testing/made-target-mosaic.ts';
import { targetDrift } from './drift.ts';
import { readColourMosaic, readColourPicture } from './read-colour.ts';

const target: MadeTarget = {
  centre: [120, 95],
  widthPx: 170,
  rotationDegrees: 14,
  tiltDegrees: 15,
  edition: 'from-november-2014',
};
const made = { widthPx: 240, heightPx: 190, targets: [target] };
const picture = madeTargetPicture(made);

/** A camera whose colours are sRGB's mixed: rows add up to 1, so neutral stays neutral. */
const fromSrgb: Matrix3 = [0.7, 0.25, 0.05, 0.12, 0.8, 0.08, 0.02, 0.28, 0.7];
const xyzToCamera: Matrix3 = multiplyMatrices(fromSrgb, rgbSpaces.srgb.fromXyz);
const camera: MadeCamera = { fromSrgb, exposure: 0.5, multipliers: [2, 1, 1.5], xyzToCamera, noise: 6 };

function read(mosaic: Mosaic): TargetReading {
  const reading = readColourMosaic(mosaic, { edition: null });
  if (!reading.found) throw new Error(`no target: ${reading.why}`);
  return reading;
}

describe('a raw of a known camera', () => {
  const mosaic = mosaicOfPicture(picture, balanced(camera));
  const reading = read(mosaic);

  test('gives the published colours under its own matrix, but for what its picture cut (cyan, 8 bit)', () => {
    const others = reading.patches.filter(({ patch }) => patch !== 18).map(({ deltaE00 }) => deltaE00 ?? 99);
    expect(Math.max(...others)).toBeLessThan(1);
    expect(reading.colour?.maxPatch).toBe(18);
    expect(reading).toMatchObject({ edition: 'from-november-2014', editionBy: 'recognised', asIs: null });
    expect(Math.abs(reading.greys?.duv ?? 1)).toBeLessThan(0.0005);
    expect(Math.abs(reading.greys?.deltaK ?? 999)).toBeLessThan(60);
  });

  test('its exposure is that of the greys: half of saturation is one stop below', () => {
    expect(reading.exposureEv).toBeCloseTo(-1, 1);
  });

  test('its place is told in the upright picture, in pixels of the frame', () => {
    // Along the middle of six patches at twice the picture's size; the tilt shortens it a little.
    expect(Math.abs(reading.place.widthPx - 340)).toBeLessThan(12);
    expect(Math.abs(reading.place.rotationDegrees - 14)).toBeLessThan(2);
    const turned = read({ ...mosaic, orientation: 6 });
    // Turned clockwise by a quarter, and a stored point (x, y) lies at (1 - y, x) (Exif 2.32, 0x0112).
    const from = (turn: number): number =>
      Math.abs(turned.place.rotationDegrees - reading.place.rotationDegrees - turn);
    expect(Math.min(from(90), from(-270))).toBeLessThan(1);
    const [[x, y]] = reading.place.corners;
    expect(turned.place.corners[0][0]).toBeCloseTo(1 - y, 2);
    expect(turned.place.corners[0][1]).toBeCloseTo(x, 2);
    expect(turned.colour?.mean).toBeCloseTo(reading.colour?.mean ?? 0, 6);
  });

  test('the profile made from it is the camera’s matrix, and holds for patches it has not seen', () => {
    const { profile } = reading;
    expect(profile?.fit.mean).toBeLessThan(0.5);
    expect(profile?.leaveOneOut.mean).toBeLessThan(0.8);
    expect(profile?.leaveOneOut.mean).toBeGreaterThanOrEqual(profile?.fit.mean ?? 9);
    const truth = multiplyMatrices(
      adaptWhite(d65Xyz, d50Xyz),
      multiplyMatrices(rgbSpaces.srgb.toXyz, invertMatrix(fromSrgb) ?? fromSrgb),
    );
    const gain = 2 ** -reading.exposureEv;
    profile?.toXyz.forEach((value, index) => {
      expect(Math.abs(value / gain - (truth[index] ?? 0))).toBeLessThan(0.06);
    });
  });

  test('the greys keep their white under the profile exactly', () => {
    const sum = (of: (index: number) => readonly number[]): number[] =>
      [0, 1, 2].map((k) => [19, 20, 21, 22].reduce((total, index) => total + (of(index)[k] ?? 0), 0));
    const light = sum((index) => reading.patches[index]?.light ?? []);
    const matrix = reading.profile?.toXyz ?? [];
    const white = [0, 1, 2].map((row) =>
      light.reduce((total, value, k) => total + value * (matrix[3 * row + k] ?? 0), 0),
    );
    // x, y of the published greys of this edition: their sum is all but D50.
    const total = white.reduce((a, b) => a + b, 0);
    expect((white[0] ?? 0) / total).toBeCloseTo(0.3457, 2);
    expect((white[1] ?? 0) / total).toBeCloseTo(0.3585, 2);
  });
});

test('a camera whose colours nobody knows gives no colours, but a profile', () => {
  const reading = read(mosaicOfPicture(picture, { ...balanced(camera), xyzToCamera: null }));
  expect(reading).toMatchObject({ colour: null, flat: null, greys: null });
  expect(reading.patches.every(({ lab, deltaE00 }) => lab === null && deltaE00 === null)).toBe(true);
  expect(reading.profile?.leaveOneOut.mean).toBeLessThan(0.8);
});

test('patches that lost light are told, and no profile is made from them', () => {
  const reading = read(mosaicOfPicture(picture, { ...balanced(camera), exposure: 2.2 }));
  expect(reading.saturatedPatches).toBeGreaterThan(0);
  expect(reading.patches[18]?.saturatedPercent).toBeGreaterThan(90);
  expect(reading.profile?.patches ?? 24 - reading.saturatedPatches).toBe(24 - reading.saturatedPatches);
});

test('greener light is found as such, by its Duv', () => {
  const green = readColourPicture(
    madeTargetPicture({ ...made, gains: [0.9, 1, 0.9] }),
    { edition: null },
    null,
  );
  expect(green.found && (green.greys?.duv ?? 0)).toBeGreaterThan(0.005);
  const magenta = readColourPicture(
    madeTargetPicture({ ...made, gains: [1, 0.9, 1] }),
    { edition: null },
    null,
  );
  expect(magenta.found && (magenta.greys?.duv ?? 0)).toBeLessThan(-0.005);
});

test('a preview gives colours, no profile, and its size in pixels of the frame', () => {
  const reading = readColourPicture(picture, { edition: 'from-november-2014' }, 2400);
  expect(reading).toMatchObject({ found: true, source: 'preview', profile: null, editionBy: 'given' });
  expect(Math.abs((reading.found ? reading.place.widthPx : 0) - 1700)).toBeLessThan(60);
});

test('between two readings the drift is the lamp’s, and none where only the exposure differs', () => {
  const before = readColourPicture(picture, { edition: null }, null);
  const dimmed = readColourPicture(
    madeTargetPicture({ ...made, gains: [0.7, 0.7, 0.7] }),
    { edition: null },
    null,
  );
  const warmed = readColourPicture(
    madeTargetPicture({ ...made, gains: [0.9, 0.8, 0.6] }),
    { edition: null },
    null,
  );
  if (!before.found || !dimmed.found || !warmed.found) throw new Error('expected targets');
  const exposure = targetDrift(before, dimmed);
  expect(exposure?.ev).toBeCloseTo(Math.log2(0.7), 1);
  expect(exposure?.deltaUv).toBeLessThan(0.0008);
  expect(exposure?.deltaE00Mean).toBeLessThan(0.5);
  const lamp = targetDrift(before, warmed);
  // White of linear sRGB (0.9, 0.8, 0.6) against D65 in u', v', by the matrices of IEC 61966-2-1.
  expect(Math.abs((lamp?.deltaUv ?? 0) - warmedUv())).toBeLessThan(0.002);
  expect(lamp?.deltaE00Mean).toBeGreaterThan(4);
});

function warmedUv(): number {
  const uv = (r: number, g: number, b: number): readonly [number, number] => {
    const x = 0.4124 * r + 0.3576 * g + 0.1805 * b;
    const y = 0.2126 * r + 0.7152 * g + 0.0722 * b;
    const z = 0.0193 * r + 0.1192 * g + 0.9505 * b;
    return [(4 * x) / (x + 15 * y + 3 * z), (9 * y) / (x + 15 * y + 3 * z)];
  };
  const [u0, v0] = uv(1, 1, 1);
  const [u1, v1] = uv(0.9, 0.8, 0.6);
  return Math.hypot(u1 - u0, v1 - v0);
}

/** The file's matrix speaks of unbalanced camera RGB. */
function balanced(own: MadeCamera): MadeCamera {
  const [r, g, b] = own.multipliers;
  const m = own.xyzToCamera ?? xyzToCamera;
  return {
    ...own,
    xyzToCamera: [m[0] / r, m[1] / r, m[2] / r, m[3] / g, m[4] / g, m[5] / g, m[6] / b, m[7] / b, m[8] / b],
  };
}
