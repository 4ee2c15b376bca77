import { expect, test } from 'vitest';
import { splitDetail } from '../kernels/noise-scale.ts';
import { smoothPlane } from '../kernels/smooth-plane.ts';
import { binNumbers, planDevelop } from '../plan.ts';
import { edgeEdgePx, mtf50, slantedEdge } from '../testing/edge-response.ts';
import { madeMosaic } from '../testing/photo-mosaic.ts';
import { erf, gaussianTaps } from './acutance-reference.ts';
import { type DetailPlan, detailStep, noiseGains, planDetail } from './detail.ts';
import { noiseScale, stabilise } from './noise-scale.ts';
import { cameraWindow } from './window-light.ts';

const scale = { shot: 3e-4, read: 2e-7, red: 2, blue: 2 };
const neutral = { smoothing: { luma: 0, chroma: 0 }, acutance: { widthPx: 1, strength: 0, gate: 1 } };

function planned(
  parts: Partial<Parameters<typeof planDetail>[0]>,
  from: 'half' | 'full' = 'full',
): DetailPlan {
  const plan = planDetail({ ...neutral, ...parts }, scale, from);
  if (plan === null) throw new Error('there is detail');
  return plan;
}

/** A square of grey light through a plan, one channel read. */
function through(plan: DetailPlan, at: (row: number, column: number) => number, edgePx: number) {
  const rgb = new Float32Array(edgePx * edgePx * 3);
  rgb.forEach((_, i) => {
    const pixel = Math.floor(i / 3);
    rgb[i] = at(Math.floor(pixel / edgePx), pixel % edgePx);
  });
  detailStep(plan, edgePx * edgePx)(rgb, edgePx, edgePx);
  return (row: number, column: number): number => rgb[(row * edgePx + column) * 3 + 1] ?? Number.NaN;
}

test('the error function has the values of Abramowitz and Stegun, table 7.1', () => {
  expect(erf(0.5)).toBeCloseTo(0.5204998778, 6);
  expect(erf(1)).toBeCloseTo(0.8427007929, 6);
  expect(erf(-2)).toBeCloseTo(-0.995322265, 6);
});

test('a Gaussian seen by pixels adds up to 1 and keeps its width', () => {
  for (const sigma of [1, 3]) {
    const taps = gaussianTaps(sigma);
    const both = taps.flatMap((tap, k) =>
      k === 0
        ? [[0, tap]]
        : [
            [k, tap],
            [-k, tap],
          ],
    ) as [number, number][];
    expect(both.reduce((sum, [, tap]) => sum + tap, 0)).toBeCloseTo(1, 12);
    // Seen by pixels of width 1, variance grows by 1/12 (that of an even distribution); what three sigma cut off is missing.
    const variance = both.reduce((sum, [k, tap]) => sum + k * k * tap, 0);
    expect(Math.abs(variance / (sigma * sigma + 1 / 12) - 1)).toBeLessThan(0.04);
  }
});

test.each([0.02, 0.13, 0.6])(
  'noise of a frame has a standard deviation of 1 on the scale, and the gains are what demosaicing leaves of it (light %d)',
  (level) => {
    const made = { read: 60, shot: 3 };
    const one = { readVariance: made.read, shotPerValue: made.shot };
    const mosaic = madeMosaic(320, 320, () => level * Math.SQRT2, made);
    const plan = planDevelop(mosaic);
    const told = noiseScale([one, one, one, one], plan.bin, mosaic.filters);
    expect(scaledNoise(mosaic, told, plan)).toBeCloseTo(1, 1);
    for (const from of ['full', 'half'] as const) {
      const edge = from === 'full' ? 320 : 160;
      const rgb = new Float32Array(edge * edge * 3);
      cameraWindow(mosaic, plan, from)({ leftPx: 0, topPx: 0, widthPx: edge, heightPx: edge }, rgb);
      const planes = [0, 1, 2].map(() => new Float32Array(edge * edge)) as [
        Float32Array,
        Float32Array,
        Float32Array,
      ];
      splitDetail(rgb, edge * edge, told.shot, told.read, ...planes);
      const [lightness, red, blue] = planes;
      const gains = noiseGains[from];
      expect(Math.abs(deviation(lightness, edge) / gains.whole - 1)).toBeLessThan(0.06);
      near(levelsOf(lightness, edge, gains.lightness.length), gains.lightness);
      near(
        levelsOf(
          red.map((value) => value / told.red),
          edge,
          gains.colour.length,
        ),
        gains.colour,
      );
      near(
        levelsOf(
          blue.map((value) => value / told.blue),
          edge,
          gains.colour.length,
        ),
        gains.colour,
      );
    }
  },
);

function near(found: readonly number[], expected: readonly number[]): void {
  found.forEach((value, level) => {
    expect(Math.abs(value / (expected[level] ?? 0) - 1)).toBeLessThan(0.1);
  });
}

/** Standard deviation of (r + 2 g + b) / 4 if each pixel had been seen by all filters: of samples, put together by hand. */
function scaledNoise(
  mosaic: ReturnType<typeof madeMosaic>,
  told: ReturnType<typeof noiseScale>,
  { bin }: ReturnType<typeof planDevelop>,
): number {
  const numbers = binNumbers(bin);
  const sums = [0, 1, 2, 3].map((position) => {
    const values: number[] = [];
    for (let row = position >> 1; row < mosaic.heightPx; row += 2)
      for (let column = position & 1; column < mosaic.widthPx; column += 2) {
        const value = mosaic.values[row * mosaic.widthPx + column] ?? 0;
        values.push(stabilise(told, (value - (numbers[position] ?? 0)) * (numbers[4 + position] ?? 0)));
      }
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    return values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length;
  });
  const [red = 0, green0 = 0, green1 = 0, blue = 0] = sums;
  return Math.sqrt((red + 2 * (green0 + green1) + blue) / 16);
}

/** Of the middle of a plane. */
function deviation(plane: ArrayLike<number>, edgePx: number): number {
  let [sum, squares, count] = [0, 0, 0];
  for (let row = 40; row < edgePx - 40; row++)
    for (let column = 40; column < edgePx - 40; column++) {
      const value = plane[row * edgePx + column] ?? 0;
      sum += value;
      squares += value * value;
      count++;
    }
  return Math.sqrt(squares / count - (sum / count) ** 2);
}

/** Standard deviations of what each level takes away: with all differences dropped, smoothing leaves the rest. */
function levelsOf(plane: Float32Array, edgePx: number, levels: number): readonly number[] {
  const rests = Array.from({ length: levels + 1 }, (_, level) => {
    const rest = plane.slice();
    smoothPlane(rest, edgePx, edgePx, new Float64Array(level).fill(1e9), new Float32Array(4 * plane.length));
    return rest;
  });
  return rests.slice(1).map((rest, level) => {
    const before = rests[level] ?? plane;
    return deviation(
      rest.map((value, i) => (before[i] ?? 0) - value),
      edgePx,
    );
  });
}

test.each([
  [2e-5, 2],
  [7e-5, 2],
  [3e-4, 1],
])(
  'smoothing keeps a clean edge: MTF50 falls by less than 3 per cent (shot noise %d, %d deviations)',
  (shot, luma) => {
    // One over the electrons of the whole range: a sensor at its base sensitivity, two stops and four stops above.
    const plan = planDetail(
      { ...neutral, smoothing: { luma, chroma: luma } },
      { ...scale, shot, read: 9 * shot ** 2 },
      'full',
    );
    if (plan === null) throw new Error('there is detail');
    for (const sigmaPx of [0.6, 1]) {
      const edge = slantedEdge(sigmaPx, 0.05, 0.5);
      // exp(-2 pi^2 s^2 f^2) is a half at f = sqrt(ln 2 / 2) / (pi s) (by hand): the measure itself is right.
      const before = mtf50(edge);
      expect(Math.abs(before / (Math.sqrt(Math.LN2 / 2) / (Math.PI * sigmaPx)) - 1)).toBeLessThan(0.01);
      expect(mtf50(through(plan, edge, edgeEdgePx)) / before).toBeGreaterThan(0.97);
    }
  },
);

test('smoothing leaves an even grey alone, to the last digits', () => {
  const at = through(planned({ smoothing: { luma: 4, chroma: 4 } }), () => 0.18, 40);
  expect(Math.abs(at(3, 5) - 0.18)).toBeLessThan(1e-6);
});

/** Swing of a small wave of `frequency` cycles a pixel about 18 % grey. */
function swing(at: (row: number, column: number) => number, edgePx: number): number {
  let [re, im] = [0, 0];
  for (let x = 20; x < edgePx - 20; x++) {
    const phase = 2 * Math.PI * waveFrequency * x;
    re += at(20, x) * Math.cos(phase);
    im += at(20, x) * Math.sin(phase);
  }
  return Math.hypot(re, im);
}

const waveFrequency = 0.125;

test.each([
  [0.8, 0.4, 'full'],
  [1.6, 0.3, 'full'],
  [1.6, 0.5, 'half'],
  [3.2, 0.3, 'half'],
] as const)(
  'acutance of width %d px and strength %d raises a wave by 1 + s (1 - G), at size %s',
  (widthPx, strength, from) => {
    const wave = (_: number, x: number): number =>
      0.18 * (1 + 0.02 * Math.sin(2 * Math.PI * waveFrequency * x));
    const plan = planned({ acutance: { widthPx, strength, gate: 0 } }, from);
    // G = exp(-2 pi^2 s^2 f^2), a Gaussian's transform; of a pixel's mean, sinc(f) besides. Width is counted at full size.
    const sigma = from === 'half' ? widthPx / 2 : widthPx;
    const pixel = Math.sin(Math.PI * waveFrequency) / (Math.PI * waveFrequency);
    const expected = 1 + strength * (1 - pixel * Math.exp(-2 * (Math.PI * sigma * waveFrequency) ** 2));
    const found = swing(through(plan, wave, 104), 104) / swing(wave, 104);
    expect(Math.abs(found / expected - 1)).toBeLessThan(0.01);
  },
);

test('acutance makes an edge steeper, and takes it past its surroundings by an eighth of their range at most', () => {
  const edge = slantedEdge(1.2, 0.05, 0.5);
  const at = through(planned({ acutance: { widthPx: 1.5, strength: 3, gate: 1 } }), edge, edgeEdgePx);
  expect(mtf50(at) / mtf50(edge)).toBeGreaterThan(1.2);
  const [dark, light] = [stabilise(scale, 0.05), stabilise(scale, 0.5)];
  let [low, high] = [Number.POSITIVE_INFINITY, 0];
  for (let x = 0; x < edgeEdgePx; x++) {
    low = Math.min(low, stabilise(scale, at(64, x)));
    high = Math.max(high, stabilise(scale, at(64, x)));
  }
  expect(dark - low).toBeLessThanOrEqual((light - dark) / 8 + 0.01);
  expect(high - light).toBeLessThanOrEqual((light - dark) / 8 + 0.01);
  expect(high).toBeGreaterThan(light);
});

test('acutance leaves alone what lies within the gate, and colour everywhere', () => {
  // Noise at 18 % grey is sqrt(3e-4 x 0.18) = 0.0073, and 1.4 times that once demosaiced: the gate lies at 0.031.
  const waveOf =
    (swingOf: number) =>
    (_: number, x: number): number =>
      0.18 + (x % 2 === 0 ? 1 : -1) * swingOf;
  const inside = waveOf(0.02);
  const outside = waveOf(0.05);
  const plan = planned({ acutance: { widthPx: 1, strength: 2, gate: 3 } });
  const at = through(plan, inside, 40);
  for (let x = 0; x < 40; x++) expect(Math.abs(at(20, x) - inside(20, x))).toBeLessThan(1e-6);
  expect(through(plan, outside, 40)(20, 20) - outside(20, 20)).toBeGreaterThan(1e-3);
  const edgePx = 40;
  const rgb = new Float32Array(edgePx * edgePx * 3);
  for (let i = 0; i < edgePx * edgePx; i++)
    rgb.set(
      [0.6, 0.3, 0.1].map((value) => value * (i % edgePx < 20 ? 1 : 0.4)),
      i * 3,
    );
  const before = rgb.slice();
  detailStep(planned({ acutance: { widthPx: 1, strength: 2, gate: 1 } }), edgePx * edgePx)(
    rgb,
    edgePx,
    edgePx,
  );
  const [r = 0, g = 0, b = 0] = rgb.subarray((20 * edgePx + 19) * 3);
  expect(r).toBeGreaterThan(1.05 * (before[19 * 3] ?? 0));
  // What read noise adds at the scale's foot is all that is missing of a plain factor.
  expect(Math.abs(g / r - 0.5)).toBeLessThan(0.003);
  expect(Math.abs(b / r - 1 / 6)).toBeLessThan(0.003);
});
