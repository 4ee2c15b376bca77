import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { GainMap, LensCorrections, LensStep } from '../../facts/index.ts';
import { lensSamples } from '../kernels/lens-samples.ts';
import { isOneWay, lensSteps } from './lens-points.ts';
import { cubicSample, lensPoint } from './lens-reference.ts';

const small = (most: number): fc.Arbitrary<number> => fc.double({ min: -most, max: most, noNaN: true });
const centre = fc.tuple(
  fc.double({ min: 0.4, max: 0.6, noNaN: true }),
  fc.double({ min: 0.4, max: 0.6, noNaN: true }),
);

const warps: fc.Arbitrary<LensStep> = fc
  .tuple(small(0.05), small(0.1), small(0.05), small(0.01), small(0.01), centre, fc.boolean(), fc.boolean())
  .map(([k0, k1, k2, t0, t1, at, isReciprocal, isEach]) => {
    const plane = (by: number) => ({
      radial: [1 + k0 + by, 0, k1, 0, k2],
      tangential: [t0, t1] as const,
      range: [0, 1] as const,
      isReciprocal,
    });
    return {
      kind: 'warp',
      centre: at,
      planes: isEach ? [plane(0.001), plane(0), plane(-0.001)] : [plane(0)],
    };
  });
const fisheyes: fc.Arbitrary<LensStep> = fc
  .tuple(small(0.1), small(0.1), centre)
  .map(([k0, k1, at]) => ({ kind: 'fisheye', centre: at, planes: [[1 + k0, k1, 0.01, 0.001]] }));
const gains: fc.Arbitrary<LensStep> = fc
  .tuple(small(0.5), small(0.3), small(0.1), centre)
  .map(([k0, k1, k4, at]) => ({ kind: 'radial-gain', k: [k0, k1, 0, 0, k4], centre: at }));
const maps: fc.Arbitrary<LensStep> = fc
  .tuple(
    fc.array(fc.double({ min: 0.5, max: 3, noNaN: true }), { minLength: 12, maxLength: 12 }),
    fc.boolean(),
  )
  .map(([values, isGreen]) => mapOf(values, isGreen));

function mapOf(values: readonly number[], isGreen: boolean): GainMap {
  return {
    kind: 'gain-map',
    within: [0, 0, 40, 60],
    plane: isGreen ? 1 : 0,
    planes: isGreen ? 1 : 3,
    rowPitch: 1,
    columnPitch: 1,
    pointsV: 3,
    pointsH: 4,
    spacing: [0.5, 0.3],
    origin: [0, 0.05],
    mapPlanes: 1,
    gains: Float32Array.from(values),
  };
}

const area = { widthPx: 60, heightPx: 40 };
const lenses: fc.Arbitrary<LensCorrections> = fc
  .array(fc.oneof(warps, fisheyes, gains, maps), { minLength: 1, maxLength: 4 })
  .map((steps) => ({ area, leftPx: 0, topPx: 0, samples: [], steps }));

test('the kernels find every point where the reference finds it', () => {
  fc.assert(
    fc.property(lenses, fc.integer({ min: 0, max: 2 }), (lens, plane) => {
      const shown = [0, 7, 30, 59].flatMap((x) => [0, 11, 20, 39].map((y) => [x, y] as const));
      const points = {
        xs: Float64Array.from(shown, ([x]) => x),
        ys: Float64Array.from(shown, ([, y]) => y),
        gains: new Float64Array(shown.length).fill(1),
      };
      lensSteps(lens, plane)(points, shown.length);
      shown.forEach((at, index) => {
        const found = lensPoint(lens, plane, at);
        expect(points.xs[index]).toBeCloseTo(found.x, 6);
        expect(points.ys[index]).toBeCloseTo(found.y, 6);
        expect(points.gains[index]).toBeCloseTo(found.gain, 6);
      });
    }),
  );
});

test('colours take one way only where nothing parts them', () => {
  fc.assert(
    fc.property(lenses, (lens) => {
      if (!isOneWay(lens)) return;
      const [red, blue] = [0, 2].map((plane) => lensPoint(lens, plane, [50, 30]));
      expect(red).toEqual(blue);
    }),
  );
});

test('light between pixels is that of cubic convolution, and on a pixel that of the pixel', () => {
  const [width, height] = [7, 6];
  const picture = Float32Array.from({ length: width * height * 3 }, (_, at) => (at * 7919) % 101);
  const at = (x: number, y: number): number =>
    picture[(Math.min(height - 1, Math.max(0, y)) * width + Math.min(width - 1, Math.max(0, x))) * 3 + 1] ??
    0;
  fc.assert(
    fc.property(
      fc.double({ min: -4, max: 10, noNaN: true }),
      fc.double({ min: -4, max: 9, noNaN: true }),
      (x, y) => {
        const out = new Float32Array(3);
        const one = Float64Array.of(2);
        lensSamples(
          picture,
          height,
          width,
          0,
          height - 1,
          Float64Array.of(x),
          Float64Array.of(y),
          one,
          1,
          0,
          2,
          out,
        );
        // Beyond three pixels from the edge nothing changes any more.
        const [hx, hy] = [Math.min(width + 2, Math.max(-3, x)), Math.min(height + 2, Math.max(-3, y))];
        const expected = 2 * cubicSample((row) => cubicSample((column) => at(column, row), hx), hy);
        expect(out[1]).toBeCloseTo(expected, 3);
      },
    ),
  );
  const out = new Float32Array(3);
  lensSamples(
    picture,
    height,
    width,
    0,
    height - 1,
    Float64Array.of(3),
    Float64Array.of(2),
    Float64Array.of(1),
    1,
    0,
    2,
    out,
  );
  expect(out[1]).toBe(at(3, 2));
});
