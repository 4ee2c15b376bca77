import { describe, expect, test } from 'vitest';
import type { SubjectBox } from '../../facts/index.ts';
import { gaussian } from '../testing/made-light.ts';
import { madeMosaic } from '../testing/made-mosaic.ts';
import { type PlacePlane, placeOfHalfPlane, placeOfMosaic, placeOfPicture } from './place-plane.ts';
import { readInPlace } from './read-in-place.ts';
import { readSubject } from './subject-box.ts';

const [widthPx, heightPx] = [900, 600];
const light = (value: (x: number, y: number) => number, noise = 0): PlacePlane => {
  const random = gaussian(4);
  const data = Float32Array.from({ length: widthPx * heightPx }, (_, at) => {
    const stray = noise === 0 ? 0 : noise * random();
    return Math.min(1, value(at % widthPx, Math.floor(at / widthPx)) + stray);
  });
  return placeOfHalfPlane({ data, widthPx, heightPx }, { widthPx: 2 * widthPx, heightPx: 2 * heightPx }, 1);
};
/** A backdrop that falls off to the corners by about a stop, as light on paper does. */
const paper = (x: number, y: number): number => {
  const [dx, dy] = [x / widthPx - 0.45, y / heightPx - 0.4];
  return 0.5 * 2 ** (-2 * (dx * dx + dy * dy));
};
const inside = (x: number, y: number): boolean => x >= 270 && x < 585 && y >= 90 && y < 540;

function known(found: ReturnType<typeof readSubject>): SubjectBox {
  if ('unknown' in found) throw new Error(`not told: ${found.unknown}`);
  return found;
}

describe('a box before a plain backdrop', () => {
  test.each([
    ['dark', (x: number, y: number) => (inside(x, y) ? 0.1 : paper(x, y)), 0],
    ['bright', (x: number, y: number) => (inside(x, y) ? 0.9 : paper(x, y)), 0],
    ['in noise', (x: number, y: number) => (inside(x, y) ? 0.1 : paper(x, y)), 0.01],
    ['before white that is burnt out', (x: number, y: number) => (inside(x, y) ? 0.3 : 1.4), 0],
    ['before black', (x: number, y: number) => (inside(x, y) ? 0.3 : 0.001), 0.001],
  ])('%s: its edges within half a per cent of the frame', (_, value, noise) => {
    const { box, fillPercent, marginsPercent } = known(readSubject(light(value, noise)));
    expect(Math.abs(box.left - 0.3)).toBeLessThan(0.005);
    expect(Math.abs(box.top - 0.15)).toBeLessThan(0.005);
    expect(Math.abs(box.right - 0.65)).toBeLessThan(0.005);
    expect(Math.abs(box.bottom - 0.9)).toBeLessThan(0.005);
    expect(Math.abs(fillPercent - 75)).toBeLessThan(1);
    expect(Math.abs(marginsPercent.right - 35)).toBeLessThan(0.5);
  });
});

test('a subject cut by the lower edge has no margin there; dust beside it does not count', () => {
  const value = (x: number, y: number): number => {
    const bust = x >= 270 && x < 585 && y >= 300;
    const dust = x >= 100 && x < 104 && y >= 100 && y < 104;
    return bust || dust ? 0.1 : paper(x, y);
  };
  const { box, marginsPercent } = known(readSubject(light(value)));
  expect(marginsPercent.bottom).toBe(0);
  expect(Math.abs(box.left - 0.3)).toBeLessThan(0.005);
});

describe('what cannot be told has its reason', () => {
  const reasonOf = (plane: PlacePlane): string => {
    const found = readSubject(plane);
    return 'unknown' in found ? found.unknown : 'told';
  };
  test('an empty set', () => {
    expect(reasonOf(light(paper))).toBe('empty');
    expect(reasonOf(light(paper, 0.005))).toBe('empty');
    for (const value of [0, 1]) expect(reasonOf(light(() => value))).toBe('empty');
  });
  test('a bench from edge to edge, and a wall of clutter', () => {
    const bench = (x: number, y: number): number => (y > 500 ? 0.1 : inside(x, y) ? 0.05 : paper(x, y));
    expect(reasonOf(light(bench))).toBe('not-plain');
    const clutter = (x: number, y: number): number => 0.1 + 0.4 * ((((x >> 5) * 7 + (y >> 5) * 13) % 5) / 5);
    expect(reasonOf(light(clutter))).toBe('not-plain');
  });
  test('a picture of one pixel, of none, and one without numbers', () => {
    for (const size of [1, 0]) {
      const picture = {
        data: new Uint8Array(size * 3),
        widthPx: size,
        heightPx: size,
        channels: 3 as const,
      };
      expect(reasonOf(placeOfPicture(picture, null))).toBe('too-small');
      expect(reasonOf(placeOfPicture(picture, 6000))).toBe('too-small');
    }
    expect(reasonOf(light(() => Number.NaN))).toBe('not-plain');
  });
});

test('a mosaic is read on its green, turned as it is seen', () => {
  const dark = (x: number, y: number): number => (x > 100 && x < 200 && y > 60 && y < 300 ? 0.05 : 0.4);
  // Orientation 6: what is left when stored is above when seen, and what is above is on the right.
  const { box } = known(readSubject(placeOfMosaic({ ...madeMosaic(600, 400, dark), orientation: 6 })));
  expect(box.top).toBeCloseTo(1 / 6, 1);
  expect(box.bottom).toBeCloseTo(1 / 3, 1);
  expect(box.left).toBeCloseTo(0.25, 1);
  expect(box.right).toBeCloseTo(0.85, 1);
});

test('the subject of the reference is what the shift is told of, where nobody says another part', () => {
  const textured = (moved: number) => (x: number, y: number) =>
    inside(x - moved, y)
      ? 0.15 + 0.1 * Math.sin((x - moved) / 9) * Math.sin(y / 11) + 0.05 * Math.sin((x - moved + y) / 23)
      : paper(x, y);
  const reading = readInPlace(light(textured(6)), { plane: light(textured(0)), region: null });
  if (reading.shift === null || 'unknown' in reading.shift) throw new Error('not told');
  // Six pixels of half size.
  expect(reading.shift.rightPx).toBeCloseTo(12, 0);
  expect(reading.shift.downPx).toBeCloseTo(0, 0);
  expect(reading.shift.at.x).toBeCloseTo(0.475, 2);
  expect(readInPlace(light(paper), null)).toEqual({
    source: 'raw',
    shift: null,
    subject: { unknown: 'empty' },
  });
});
