import fc from 'fast-check';
import { expect, test } from 'vitest';
import { identityMatrix } from '../../colour/index.ts';
import { lookSchema } from '../schema.ts';
import { moved, placeOf } from './place-of.ts';

type GeometryInput = NonNullable<Parameters<typeof lookSchema.parse>[0]>;
const geometry = (given: GeometryInput) =>
  lookSchema.parse({ version: 2, title: 'Placed', geometry: given }).geometry;

test('without geometry the picture lies as it is', () => {
  const placing = placeOf(geometry({}), 6000, 4000);
  expect(placing).toMatchObject({ widthPx: 6000, heightPx: 4000, isWhole: true, findings: [] });
  expect(placing.toOriginal.map((value) => value + 0)).toEqual(identityMatrix);
});

test.each([-15, -3.2, 0.4, 7, 15])(
  'turned by %d degrees it is cut to the largest rectangle of its ratio',
  (deg) => {
    // A w x h rectangle turned by t needs w cos t + h sin t across and w sin t + h cos t down (plane geometry).
    const t = (Math.abs(deg) * Math.PI) / 180;
    const across = 6000 * Math.cos(t) + 4000 * Math.sin(t);
    const down = 6000 * Math.sin(t) + 4000 * Math.cos(t);
    const scale = Math.min(6000 / across, 4000 / down);
    const { widthPx, heightPx } = placeOf(geometry({ straightenDeg: deg }), 6000, 4000);
    expect(widthPx).toBe(Math.floor(6000 * scale));
    expect(heightPx).toBe(Math.floor(4000 * scale));
  },
);

test('degrees above zero turn clockwise: what lay at the right comes to lie lower', () => {
  const { toPlane } = placeOf(geometry({ straightenDeg: 10 }), 6000, 4000);
  const [, left] = moved(toPlane, [1000, 2000]);
  const [, right] = moved(toPlane, [5000, 2000]);
  expect((right - left) / 4000).toBeCloseTo(Math.sin((10 * Math.PI) / 180), 9);
});

test.each([
  [4, 5, 3200, 4000],
  [1, 1, 4000, 4000],
  [16, 9, 6000, 3375],
  [3, 1, 6000, 2000],
])(
  'a crop of %d to %d is the largest there is, in whole pixels of the original',
  (across, down, width, height) => {
    const placing = placeOf(geometry({ crop: { across, down } }), 6000, 4000);
    expect([placing.widthPx, placing.heightPx]).toEqual([width, height]);
    expect(placing.isWhole).toBe(true);
    const [x, y] = moved(placing.toOriginal, [0, 0]);
    expect([x, y]).toEqual([(6000 - width) / 2, Math.round((4000 - height) / 2)]);
  },
);

test('the middle of a crop is a place in the original, flipped or not; out of reach it is moved inside', () => {
  const crop = { across: 1, down: 1, size: 0.5, centreX: 0.3, centreY: 0.6 };
  for (const flip of ['none', 'left-right', 'top-bottom'] as const) {
    const { toOriginal, widthPx, heightPx } = placeOf(geometry({ flip, crop }), 6000, 4000);
    expect(moved(toOriginal, [widthPx / 2, heightPx / 2])).toEqual([1800, 2400]);
  }
  const out = placeOf(geometry({ crop: { ...crop, centreX: 0, centreY: 1 } }), 6000, 4000);
  expect(moved(out.toOriginal, [0, out.heightPx])).toEqual([0, 4000]);
});

test('flips change sides, and nothing is resampled', () => {
  const across = placeOf(geometry({ flip: 'left-right' }), 601, 400);
  expect(moved(across.toOriginal, [0.5, 0.5])).toEqual([600.5, 0.5]);
  const down = placeOf(geometry({ flip: 'top-bottom' }), 601, 401);
  expect(moved(down.toOriginal, [0.5, 0.5])).toEqual([0.5, 400.5]);
  expect([across.isWhole, down.isWhole]).toEqual([true, true]);
});

/** Where a camera that was tilted up by `tilt` and rolled by `roll` sees a point of a wall 1 away; shares of the picture. */
function seen(
  [x, y]: readonly [number, number],
  focal: number,
  tilt: number,
  roll: number,
  size: readonly [number, number],
) {
  const [width, height] = size;
  const down = y * Math.cos(tilt) + Math.sin(tilt);
  const depth = Math.cos(tilt) - y * Math.sin(tilt);
  const f = focal * Math.hypot(width, height);
  const px = (f * x) / depth;
  const py = (f * down) / depth;
  return [
    0.5 + (px * Math.cos(roll) - py * Math.sin(roll)) / width,
    0.5 + (px * Math.sin(roll) + py * Math.cos(roll)) / height,
  ] as const;
}

test.each([
  [0.2, 0, 1],
  [-0.15, 0, 1],
  [-0.15, 0.06, 1],
  [0.12, -0.04, 0.7],
  [0.1, 0.02, 1.8],
])(
  'a wall seen tilted by %d and rolled by %d rad comes out with upright edges (focal length %d diagonals)',
  (tilt, roll, focal) => {
    const size = [6000, 4000] as const;
    // Upright edges of a wall, half a unit long; the pinhole model, worked out above by hand.
    const reach = 0.18 / focal;
    const up = -Math.tan(tilt);
    const at = (x: number, y: number) => seen([x * reach, up + y * reach], focal, tilt, roll, size);
    const corners = [at(-1, -1), at(-1, 1), at(1, -1), at(1, 1)] as const;
    const lines = [
      [...corners[0], ...corners[1]],
      [...corners[2], ...corners[3]],
    ];
    const { toPlane, findings } = placeOf(geometry({ lines }), ...size);
    expect(findings).toEqual([]);
    const [leftTop = NaN, leftBottom = NaN, rightTop = NaN, rightBottom = NaN] = corners.map(
      ([x, y]) => moved(toPlane, [x * size[0], y * size[1]])[0],
    );
    expect(Math.abs(leftTop - leftBottom)).toBeLessThan(1e-6);
    expect(Math.abs(rightTop - rightBottom)).toBeLessThan(1e-6);
    if (focal !== 1 || roll !== 0) return;
    // With the focal length that is assumed, a tilt alone is undone whole: a square is a square.
    const [a, b, , d] = corners.map(([x, y]) => moved(toPlane, [x * size[0], y * size[1]]));
    if (a === undefined || b === undefined || d === undefined) throw new Error('four corners');
    expect(Math.hypot(d[0] - b[0], d[1] - b[1]) / Math.hypot(b[0] - a[0], b[1] - a[1])).toBeCloseTo(1, 6);
  },
);

test('two lines that run alike and lean are turned upright, and nothing else happens', () => {
  const lean = Math.tan((3 * Math.PI) / 180);
  const line = (x: number) => [x, 0.2, x + (0.6 * 4000 * lean) / 6000, 0.8];
  const byLines = placeOf(geometry({ lines: [line(0.3), line(0.7)] }), 6000, 4000);
  const byAngle = placeOf(geometry({ straightenDeg: 3 }), 6000, 4000);
  byLines.toOriginal.forEach((value, index) => {
    expect(Math.abs(value - (byAngle.toOriginal[index] ?? 0))).toBeLessThan(1e-6 * (1 + Math.abs(value)));
  });
});

test('lying lines come out lying', () => {
  const lines = [
    [0.1, 0.2, 0.9, 0.3],
    [0.1, 0.8, 0.9, 0.7],
  ];
  const { toPlane } = placeOf(geometry({ lines }), 6000, 4000);
  for (const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] of lines) {
    const [, from] = moved(toPlane, [x0 * 6000, y0 * 4000]);
    const [, to] = moved(toPlane, [x1 * 6000, y1 * 4000]);
    expect(Math.abs(from - to)).toBeLessThan(1e-6);
  }
});

test('lines that meet in the picture are left alone, and it is said', () => {
  const lines = [
    [0.2, 0.1, 0.6, 0.9],
    [0.8, 0.1, 0.4, 0.9],
  ];
  const placing = placeOf(geometry({ lines }), 6000, 4000);
  expect(placing.findings).toEqual([{ code: 'look.lines-too-steep', args: {} }]);
  expect(placing).toMatchObject({ widthPx: 6000, heightPx: 4000, isWhole: true });
});

const share = fc.double({ min: 0, max: 1, noNaN: true });
const line = fc.tuple(share, share, share, share).filter(([a, b, c, d]) => Math.hypot(c - a, d - b) >= 0.05);

test('whatever the geometry, there is picture in every corner of what is shown, at a scale of 1 in its middle', () => {
  fc.assert(
    fc.property(
      fc.record({
        straightenDeg: fc.double({ min: -15, max: 15, noNaN: true }),
        lines: fc.option(fc.tuple(line, line)),
        flip: fc.constantFrom('none', 'left-right', 'top-bottom'),
        crop: fc.option(
          fc.record({
            across: fc.double({ min: 1, max: 100, noNaN: true }),
            down: fc.double({ min: 1, max: 100, noNaN: true }),
            size: fc.double({ min: 0.05, max: 1, noNaN: true }),
            centreX: share,
            centreY: share,
          }),
        ),
      }),
      (given) => {
        const { widthPx, heightPx, toOriginal } = placeOf(geometry(given), 900, 600);
        fc.pre(widthPx > 4 && heightPx > 4);
        for (const [x, y] of [
          [0, 0],
          [widthPx, 0],
          [0, heightPx],
          [widthPx, heightPx],
        ] as const) {
          const [fromX, fromY] = moved(toOriginal, [x, y]);
          expect(fromX).toBeGreaterThan(-1e-3);
          expect(fromX).toBeLessThan(900 + 1e-3);
          expect(fromY).toBeGreaterThan(-1e-3);
          expect(fromY).toBeLessThan(600 + 1e-3);
        }
        const [x, y] = [widthPx / 2, heightPx / 2];
        const [left, right] = [moved(toOriginal, [x - 0.01, y]), moved(toOriginal, [x + 0.01, y])];
        const [above, below] = [moved(toOriginal, [x, y - 0.01]), moved(toOriginal, [x, y + 0.01])];
        const area =
          ((right[0] - left[0]) * (below[1] - above[1]) - (right[1] - left[1]) * (below[0] - above[0])) /
          4e-4;
        expect(Math.abs(area)).toBeGreaterThan(0.99);
        expect(Math.abs(area)).toBeLessThan(1.01);
      },
    ),
    { numRuns: 500 },
  );
});

// By definition: two pieces of one line meet everywhere on it.
test('two parallels that are one line turn the picture, and are said to be one; two beside each other are not', () => {
  const placed = (lines: readonly (readonly number[])[] | null) => placeOf(geometry({ lines }), 600, 400);
  const one = [0.3, 0.2, 0.35, 0.8] as const;
  const same = placed([[...one], [...one]]);
  expect(same.findings).toEqual([{ code: 'look.lines-are-one', args: {} }]);
  expect(placed([[...one], [0.35, 0.8, 0.3, 0.2]]).findings).toEqual(same.findings);
  expect(placed([[...one], [0.325, 0.5, 0.35, 0.8]]).findings).toEqual(same.findings);
  expect(placed([[...one], [0.3001, 0.2, 0.3501, 0.8]]).findings).toEqual([]);
  expect(placed(null).findings).toEqual([]);
  // It is upright afterwards: its ends lie one above the other.
  const plane = [one.slice(0, 2), one.slice(2)].map(([x = 0, y = 0]) =>
    moved(same.toPlane, [x * 600, y * 400]),
  );
  expect(plane[0]?.[0]).toBeCloseTo(plane[1]?.[0] ?? Number.NaN, 6);
});
