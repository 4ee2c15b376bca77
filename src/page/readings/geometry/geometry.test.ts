import { expect, test } from 'vitest';
import type { EdgeProfileReading } from '../../../contract/index.ts';
import { drawDepth } from './depth-drawing.ts';
import { drawDrift } from './drift-drawing.ts';
import { drawEdge } from './edge-drawing.ts';
import { lostRects } from './lost-rects.ts';
import { drawStops } from './stops-drawing.ts';
import { tileMarks } from './tile-marks.ts';

const size = { width: 200, height: 100 };

const profile: EdgeProfileReading = {
  x: 0.5,
  y: 0.5,
  acrossDegrees: 0,
  fromPx: -4,
  stepPx: 1,
  heights: [0, 0, 0, 0.1, 0.5, 0.9, 1, null, 1],
  tenPx: -1,
  ninetyPx: 1,
};

test('an edge stands in the middle, as wide as it was measured, and a gap stays a gap', () => {
  const drawn = drawEdge(profile, 2.8, size);
  // 3.2 px on each side over 200: 31.25 for a pixel.
  expect(drawn.ninetyX - drawn.tenX).toBeCloseTo(62.5, 9);
  expect((drawn.ninetyX + drawn.tenX) / 2).toBe(100);
  expect(drawn.good.toX - drawn.good.fromX).toBeCloseTo(2.8 * 31.25, 9);
  expect(drawn.points).toHaveLength(6);
  expect(drawn.points.find(({ x }) => x === 100)?.y).toBeCloseTo(50, 9);
  expect(drawn.levels.ninety).toBeLessThan(drawn.levels.ten);
  expect(drawn.pixelX).toHaveLength(7);
});

test('a histogram covers its scale, with 18 % grey at 0 and decades of share for its height', () => {
  const percents = new Array<number>(48).fill(0);
  percents[30] = 100;
  percents[0] = 0.1;
  const { outline, marks } = drawStops(percents, { fromStops: -10, stepStops: 1 / 3 }, size);
  expect(marks.find(({ stops }) => stops === 0)?.x).toBe(125);
  expect(marks.map(({ stops }) => stops)).toEqual([-10, -8, -6, -4, -2, 0, 2, 4, 6]);
  // 0.003 to 30 % are four decades: 0.1 % lies log10(33.3) = 1.523 of them up; all of it at the top.
  expect(outline.startsWith('M0 100V61.93H4.17V100')).toBe(true);
  expect(outline).toContain('V0H129.17');
  expect(outline.endsWith('H200V100Z')).toBe(true);
});

test('a strobe that stayed dark is drawn at the edge, and the frames about it stay where they are', () => {
  const frames = [0.02, -0.01, -4, null, 0].map((ev, at) => ({
    frame: `f${at}`,
    name: `f${at}`,
    at: '',
    ev,
  }));
  const { frames: marks, zeroY, reachEv } = drawDrift({ frames, goodEv: 0.15, badEv: 0.5 }, size);
  expect(reachEv).toBe(3);
  expect(marks.map(({ judgement }) => judgement)).toEqual(['good', 'good', 'bad', 'unknown', 'good']);
  expect(marks.map(({ beyond }) => beyond)).toEqual([false, false, true, false, false]);
  expect(marks[2]?.y).toBe(88);
  expect(zeroY).toBe(50);
  expect(marks.filter(({ own }) => own)).toEqual([marks[4]]);
  expect(marks[4]?.x).toBe(188);
});

test('hundredths of a stop do not look like weather', () => {
  const frames = [0.03, -0.02].map((ev, at) => ({ frame: `f${at}`, name: `f${at}`, at: '', ev }));
  const drawn = drawDrift({ frames, goodEv: 0.15, badEv: 0.5 }, size);
  expect(drawn.reachEv).toBe(0.5);
  expect(Math.abs((drawn.frames[0]?.y ?? 0) - drawn.zeroY)).toBeLessThan(3);
});

test('tiles without an edge have no mark; the others lie in the middle of theirs, cut ones too', () => {
  const map = {
    columns: 2,
    rows: 2,
    columnEnds: [0.6, 1],
    rowEnds: [0.5, 1],
    widthsPx: [1.4, null, 20, 3.5],
  };
  const marks = tileMarks(map, 2.8, 4.5);
  expect(marks.map(({ x, y, judgement }) => [x, y, judgement])).toEqual([
    [0.3, 0.25, 'good'],
    [0.3, 0.75, 'bad'],
    [0.8, 0.75, 'doubt'],
  ]);
  expect(marks[0]?.radius).toBeCloseTo(0.08, 9);
  expect(marks[1]?.radius).toBe(0.44);
});

test('runs of lost cells break at the ends of rows', () => {
  const rects = lostRects({ columns: 4, rows: 2, runs: [3, 0, 3, 1, 2, 6] });
  expect(rects).toEqual([
    { left: 0.75, top: 0, width: 0.25, height: 0.5, channels: 1 },
    { left: 0, top: 0.5, width: 0.5, height: 0.5, channels: 1 },
    { left: 0.5, top: 0.5, width: 0.5, height: 0.5, channels: 6 },
  ]);
  // More than the map holds is cut: a broken answer hangs nothing.
  expect(lostRects({ columns: 2, rows: 1, runs: [1e9, 1] })).toHaveLength(1);
});

test('depth of field lies about the distance of focus, and runs out of the drawing where it has no end', () => {
  const field = {
    focalMm: 50,
    fNumber: 8,
    distanceMm: 2000,
    circleMm: 0.029,
    airyMm: 0.0107,
    nearMm: 1700,
    farMm: 2440,
    withDiffraction: { nearMm: 1720, farMm: 2400 },
  };
  const drawn = drawDepth(field, 200);
  expect(drawn.focusX).toBe(100);
  expect(drawn.nearX).toBeLessThan(drawn.diffraction?.nearX ?? 0);
  expect(drawn.farX).toBeGreaterThan(drawn.diffraction?.farX ?? 200);
  expect(drawDepth({ ...field, farMm: null }, 200).farX).toBe(200);
});
