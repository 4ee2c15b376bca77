import { expect, test, vi } from 'vitest';
import { normalNumbers } from '../../testing/normal-numbers.ts';
import { gaussianTaps, liftReference } from '../acutance-reference.ts';
import { type DetailKernels, detailPlanes, plainDetailKernels } from '../detail-kernels.ts';
import { smoothReference } from '../smooth-reference.ts';
import { simdDetailKernels } from './simd-detail-kernels.ts';

/** Edges and noise on a scale where noise is 1. */
function madePlane(widthPx: number, heightPx: number, start: number): number[][] {
  const normal = normalNumbers(start);
  return Array.from({ length: heightPx }, (_, row) =>
    Array.from({ length: widthPx }, (_, column) => 60 + (column > row ? 40 : 0) + normal()),
  );
}

function simdOf(pixelsMax: number): DetailKernels {
  const simd = simdDetailKernels(pixelsMax);
  if (simd === null) throw new Error('this machine has no WebAssembly SIMD');
  return simd;
}

function largest(found: Float32Array, expected: Iterable<number>): number {
  return [...expected].reduce(
    (most, value, at) => Math.max(most, Math.abs(value - (found[at] ?? Number.NaN))),
    0,
  );
}

/** Every remainder of a vector, and planes that are smaller than what is looked at. */
const sizes = [
  [64, 9],
  [61, 23],
  [30, 40],
  [9, 40],
  [5, 3],
  [7, 1],
  [1, 6],
] as const;
const limits = Float64Array.of(1.44, 0.16, 0.04, 0.01);

// Values about 100 in 32-bit floats: a digit is 8e-6, and each level adds a few.
test.each(sizes)(
  'smoothing %d x %d is that of TypeScript within 1e-4, and that of the reference',
  (widthPx, heightPx) => {
    const plane = madePlane(widthPx, heightPx, 3);
    const count = widthPx * heightPx;
    const [simd, plain] = [simdOf(count + 7), plainDetailKernels(count + 7)];
    for (const { planes, smooth } of [simd, plain]) {
      planes.fill(-1);
      planes.set(plane.flat(), detailPlanes.red * count);
      smooth(detailPlanes.red, widthPx, heightPx, limits);
    }
    const smoothed = ({ planes }: DetailKernels): Float32Array => planes.slice(count, 2 * count);
    expect(largest(smoothed(simd), smoothed(plain))).toBeLessThan(1e-4);
    const reference = smoothReference(
      plane,
      [...limits].map((limit) => Math.sqrt(limit)),
    );
    expect(largest(smoothed(simd), reference.flat())).toBeLessThan(2e-4);
    // The planes beside it are another's.
    expect(simd.planes.slice(0, count)).toEqual(new Float32Array(count).fill(-1));
    expect(simd.planes.slice(2 * count, 4 * count)).toEqual(new Float32Array(2 * count).fill(-1));
  },
);

test.each(
  sizes.flatMap(([widthPx, heightPx]) =>
    [
      [0.4, 0],
      [1, 1.4],
      [2.5, 0.5],
    ].map(([sigmaPx = 0, gate = 0]) => [widthPx, heightPx, sigmaPx, gate] as const),
  ),
)(
  'acutance on %d x %d, width %d px, gate %d, is that of TypeScript and of the reference within 1e-5',
  (...made) => {
    const [widthPx, heightPx, sigmaPx, gate] = made;
    const plane = madePlane(widthPx, heightPx, 5);
    // Without light there is nothing to lift.
    for (const row of plane.slice(0, 1)) row[0] = 0.5;
    const count = widthPx * heightPx;
    const taps = Float64Array.from(gaussianTaps(sigmaPx));
    const [simd, plain] = [simdOf(count), plainDetailKernels(count)];
    for (const { planes, lift } of [simd, plain]) {
      planes.set(plane.flat());
      lift(widthPx, heightPx, { taps, strength: 2, gate });
    }
    const lifted = ({ planes }: DetailKernels): Float32Array => planes.slice(3 * count, 4 * count);
    expect(largest(lifted(simd), lifted(plain))).toBeLessThan(1e-5);
    const reference = liftReference(plane, { taps: [...taps], strength: 2, gate, reachPx: taps.length - 1 });
    expect(largest(lifted(simd), reference.flat())).toBeLessThan(1e-5);
    expect(simd.planes.slice(0, count)).toEqual(Float32Array.from(plane.flat()));
  },
);

test('a pixel has the same digits wherever in a vector it lies', () => {
  const [widthPx, heightPx, cutPx] = [90, 40, 3];
  const whole = madePlane(widthPx, heightPx, 8);
  const taps = Float64Array.from(gaussianTaps(1));
  const made = (
    rows: readonly (readonly number[])[],
  ): { readonly soft: Float32Array; readonly lift: Float32Array } => {
    const width = rows[0]?.length ?? 0;
    const kernels = simdOf(width * heightPx);
    kernels.planes.set(rows.flat());
    kernels.smooth(detailPlanes.lightness, width, heightPx, limits.subarray(0, 2));
    kernels.lift(width, heightPx, { taps, strength: 2, gate: 1 });
    const count = width * heightPx;
    return { soft: kernels.planes.slice(0, count), lift: kernels.planes.slice(3 * count, 4 * count) };
  };
  const [all, part] = [made(whole), made(whole.map((row) => row.slice(cutPx)))];
  // Two levels and the blur look 6 + 2 + 3 px aside.
  for (let row = 0; row < heightPx; row++) {
    for (let x = cutPx + 12; x < widthPx; x++) {
      const [at, cut] = [row * widthPx + x, row * (widthPx - cutPx) + x - cutPx];
      expect(part.soft[cut]).toBe(all.soft[at]);
      expect(part.lift[cut]).toBe(all.lift[at]);
    }
  }
});

test('more pixels than were asked for are refused', () => {
  expect(() => simdOf(99).smooth(detailPlanes.red, 10, 10, limits)).toThrow(RangeError);
  expect(() => simdOf(99).lift(10, 10, { taps: limits, strength: 1, gate: 0 })).toThrow(RangeError);
});

test('a machine that refuses the module gets null, and so TypeScript', async () => {
  vi.resetModules();
  vi.stubGlobal('WebAssembly', undefined);
  try {
    const fresh: typeof import('./simd-detail-kernels.ts') = await import('./simd-detail-kernels.ts');
    expect(fresh.simdDetailKernels(16)).toBeNull();
  } finally {
    vi.unstubAllGlobals();
    vi.resetModules();
  }
});
