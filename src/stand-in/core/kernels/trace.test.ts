import { expect, test } from 'vitest';
import { solidify } from '../ware/shape.ts';
import type { Stage } from './stage.ts';
import { isBlockedBy, metNothing, metPaper, traceRay, wayAlongPaper } from './trace.ts';

/** A straight pipe: middle of the wall at radius 40, 4 mm thick, from 0 to 100 mm high. Expected hits are by hand. */
const pipe = solidify({
  wall: [
    [40, 0, 2],
    [40, 50, 2],
    [40, 100, 2],
  ],
});

const stage: Stage = {
  solids: [pipe({ x: 10, y: 0, z: 0, turn: 30 }, 0)],
  clusters: [{ from: 0, to: 1, box: Float64Array.of(-100, -10, -100, 100, 110, 100) }],
  slabs: [],
  spheres: new Float64Array(0),
  glazes: [],
  stuffs: [],
  card: null,
  backdrop: {
    bendZ: -300,
    bendRadius: 200,
    frontMm: 260,
    sideMm: 620,
    fadeMm: 480,
    albedo: new Float64Array(3),
  },
  panels: [],
  keyWay: new Float64Array(3),
  camera: {
    eye: new Float64Array(3),
    forward: new Float64Array(3),
    right: new Float64Array(3),
    down: new Float64Array(3),
    centreX: 0,
    centreY: 0,
    pixelMm: 1,
    lens: { focalMm: 90, apertureMm: 10, focusMm: 1000 },
  },
  paperLight: null,
  roomLight: new Float64Array(3),
  evenLight: 0,
  seed: 1,
};

const met = new Float64Array(1);
const ray = (...numbers: number[]): Float64Array => Float64Array.from(numbers);

test.each([
  ['from the front meets the outer wall', ray(10, 50, 500, 0, 0, -1), 500 - 42],
  ['from inside meets the inner wall', ray(10, 50, 0, 0, 0, -1), 38],
  [
    'from the side, off the axis, meets it where the circle is',
    ray(-500, 50, 20, 1, 0, 0),
    510 - Math.sqrt(42 ** 2 - 20 ** 2),
  ],
  ['from above meets the rounded rim', ray(50, 400, 0, 0, -1, 0), 400 - 102],
])('a ray %s', (_, from, away) => {
  expect(traceRay(stage, from, met)).toBe(0);
  // A hundredth of a millimetre is the surface's own thickness; the field is read between half millimetres.
  expect(Math.abs((met[0] ?? Number.NaN) - away)).toBeLessThan(0.03);
});

test('a ray that passes meets the paper: level, in the bend, upright', () => {
  expect(traceRay(stage, ray(200, 100, 0, 0, -1, 0), met)).toBe(metPaper);
  expect(met[0]).toBeCloseTo(100, 6);
  // Centre of the bend at (y 200, z -300); 45 degrees down and back meets it after its radius.
  const diagonal = Math.SQRT1_2;
  expect(traceRay(stage, ray(200, 200, -300, 0, -diagonal, -diagonal), met)).toBe(metPaper);
  expect(met[0]).toBeCloseTo(200, 6);
  expect(traceRay(stage, ray(200, 300, 0, 0, 0, -1), met)).toBe(metPaper);
  expect(met[0]).toBeCloseTo(500, 6);
  expect(traceRay(stage, ray(0, 300, 0, 0, 1, 0), met)).toBe(metNothing);
});

test('a shadow ray is blocked by the wall and not by what lies beyond its end', () => {
  const blocked = (from: Float64Array, reach: number): boolean =>
    isBlockedBy(stage, from, reach, Int16Array.of(0), 1);
  expect(blocked(ray(10, 50, 500, 0, 0, -1), 1000)).toBe(true);
  expect(blocked(ray(10, 50, 500, 0, 0, -1), 400)).toBe(false);
  expect(blocked(ray(100, 50, 500, 0, 0, -1), 1000)).toBe(false);
});

test('the way along the paper is its length: level, a quarter circle, upright', () => {
  const quarter = (Math.PI / 2) * 200;
  expect(wayAlongPaper(stage.backdrop, 0, -100)).toBeCloseTo(100, 9);
  expect(wayAlongPaper(stage.backdrop, 200, -500)).toBeCloseTo(300 + quarter, 9);
  expect(wayAlongPaper(stage.backdrop, 250, -500)).toBeCloseTo(350 + quarter, 9);
});
