import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Vector3 } from '../colour/index.ts';
import { fitGamut } from '../look/index.ts';
import { hintLost, noteLost } from './kernels/hint-highlights.ts';
import { lostShare, rebuildHighlights, rebuildHinted } from './reference.ts';

const daylight: Vector3 = [2.1, 1, 1.6];
const tungsten: Vector3 = [1, 1.1, 2.6];

/** What the sensor leaves of balanced light: each channel ends at its own saturation. */
function seen([r, g, b]: Vector3, saturation: Vector3): Vector3 {
  return [Math.min(r, saturation[0]), Math.min(g, saturation[1]), Math.min(b, saturation[2])];
}

test.each([
  ['daylight', daylight],
  ['tungsten light', tungsten],
])(
  'a grey stays grey in %s, however far above saturation, and never gets darker as light rises',
  (_, saturation) => {
    let last = 0;
    for (let level = 0.01; level < 4; level += 0.01) {
      const [r, g, b] = rebuildHighlights(seen([level, level, level], saturation), saturation);
      expect(Math.max(r, g, b) - Math.min(r, g, b)).toBeLessThan(0.012 * level);
      expect(g).toBeGreaterThanOrEqual(last - 1e-9);
      last = g;
    }
  },
);

test('light below nine tenths of every channel is left alone', () => {
  expect(rebuildHighlights([1.8, 0.89, 1.3], daylight)).toEqual([1.8, 0.89, 1.3]);
});

test('rebuilding only ever raises a channel', () => {
  const channel = fc.double({ min: 0, max: 1, noNaN: true });
  fc.assert(
    fc.property(fc.tuple(channel, channel, channel), ([r, g, b]) => {
      const rgb: Vector3 = [r * daylight[0], g * daylight[1], b * daylight[2]];
      rebuildHighlights(rgb, daylight).forEach((value, index) => {
        expect(value).toBeGreaterThanOrEqual((rgb[index] ?? 0) - 1e-12);
      });
    }),
  );
});

test.each([1, 1.5, 2, 3, 5, 10])(
  'a tungsten lamp, %d times over, goes orange and then white, never magenta',
  (level) => {
    // Planckian light at 2850 K in a balance for daylight: red leads, green between, blue last (common practice, no source).
    const [r, g, b] = rebuildHighlights(seen([1.6 * level, 0.9 * level, 0.35 * level], daylight), daylight);
    expect(g).toBeGreaterThanOrEqual(Math.min(r, b));
    expect(r).toBeGreaterThanOrEqual(g - 1e-9);
  },
);

test('a red light that saturates red alone stays red', () => {
  const [r, g, b] = rebuildHighlights([2.1, 0.2, 0.1], daylight);
  expect([r, g, b]).toEqual([2.1, 0.2, 0.1]);
});

test('loss fades in from nine tenths to saturation', () => {
  expect(lostShare(0.9)).toBe(0);
  expect(lostShare(0.95)).toBeCloseTo(0.5, 12);
  expect(lostShare(1)).toBe(1);
  expect(lostShare(1.2)).toBe(1);
});

const luminance: Vector3 = [0.2126, 0.7152, 0.0722];

function luminanceOf([r, g, b]: Vector3): number {
  return luminance[0] * r + luminance[1] * g + luminance[2] * b;
}

test('the gamut keeps what fits, and luminance where it can be kept', () => {
  const channel = fc.double({ min: -0.5, max: 1.5, noNaN: true });
  fc.assert(
    fc.property(fc.tuple(channel, channel, channel), (rgb) => {
      const fitted = fitGamut(rgb, luminance);
      for (const value of fitted) {
        expect(value).toBeGreaterThanOrEqual(-1e-12);
        expect(value).toBeLessThanOrEqual(1 + 1e-12);
      }
      expect(luminanceOf(fitted)).toBeCloseTo(Math.min(1, Math.max(0, luminanceOf(rgb))), 9);
      if (Math.min(...rgb) >= 0 && Math.max(...rgb) <= 1) expect(fitted).toEqual(rgb);
    }),
  );
});

test('a colour drawn into the gamut keeps the order of its channels', () => {
  const [r, g, b] = fitGamut([1.3, 0.4, -0.2], luminance);
  expect(r).toBeGreaterThan(g);
  expect(g).toBeGreaterThan(b);
});

/** Lights whose channels are lost one, two or three at a time as they get brighter, by balance. */
const ramps: readonly (readonly [string, Vector3, Vector3])[] = [
  ['green first, then blue, then red, in daylight', [0.9, 0.8, 0.7], daylight],
  ['green alone for long, in daylight', [0.5, 0.6, 0.4], daylight],
  ['green and blue together, in daylight', [0.5, 0.5, 0.8], daylight],
  ['red and green together, in tungsten light', [0.9, 0.95, 0.9], tungsten],
  ['red first, then green, in tungsten light', [1, 0.8, 0.5], tungsten],
  ['all three at once', [0.9, 0.9, 0.9], [1, 1, 1]],
];

test.each(ramps)('through clipping, %s, no channel jumps or falls as light rises', (_, light, saturation) => {
  const step = 0.001;
  const at = (level: number): Vector3 =>
    rebuildHighlights(seen([light[0] * level, light[1] * level, light[2] * level], saturation), saturation);
  let last = at(0);
  for (let level = step; level < 6; level += step) {
    const now = at(level);
    now.forEach((value, channel) => {
      const rise = value - (last[channel] ?? 0);
      expect(rise).toBeGreaterThan(-1e-9);
      // Smooth: a hundredth of the way from nothing to loss moves a channel by a few hundredths at most.
      expect(rise).toBeLessThan(0.04);
    });
    last = now;
  }
});

/** By how much the order of two channels turns round on the way through clipping; 0 where it never does. */
function turned(light: Vector3, saturation: Vector3): number {
  let most = 0;
  for (let level = 0.01; level < 6; level += 0.01) {
    const [r, g, b] = rebuildHighlights(
      seen([light[0] * level, light[1] * level, light[2] * level], saturation),
      saturation,
    );
    const pairs = [
      [light[0] - light[1], r - g],
      [light[1] - light[2], g - b],
      [light[0] - light[2], r - b],
    ] as const;
    for (const [was, is] of pairs) if (was !== 0) most = Math.max(most, -Math.sign(was) * is);
  }
  return most;
}

/** What one pixel alone cannot tell: how far its lost channel went. Hints of light nearby tell it (below). */
const turning = new Set(['green alone for long, in daylight', 'red first, then green, in tungsten light']);

test.each(ramps.filter(([name]) => !turning.has(name)))(
  'through clipping, %s, hue does not turn past its neighbours',
  (_, light, saturation) => {
    expect(turned(light, saturation)).toBeLessThan(1e-9);
  },
);

test.each(ramps.filter(([name]) => turning.has(name)))(
  'through clipping, %s, hue turns past a neighbour where nothing but the pixel is known, by no more than a third of the range',
  (_, light, saturation) => {
    expect(turned(light, saturation)).toBeGreaterThan(0);
    expect(turned(light, saturation)).toBeLessThan(1 / 3);
  },
);

test.each(ramps)(
  'with the hint of its own colour, %s, hue does not turn at all until all is lost',
  (_, light, saturation) => {
    for (let level = 0.05; level < 6; level += 0.01) {
      const rgb = seen([light[0] * level, light[1] * level, light[2] * level], saturation);
      const known = rgb.map((value, channel) => 1 - lostShare(value / (saturation[channel] ?? 1)));
      if (Math.max(...known) < 0.5) break;
      const rebuilt = rebuildHinted(rgb, saturation, light);
      rebuilt.forEach((value, channel) => {
        const share = value / (rebuilt[0] + rebuilt[1] + rebuilt[2]);
        const wanted = (light[channel] ?? 0) / (light[0] + light[1] + light[2]);
        // Half lost counts half: there a channel is a little low.
        expect(Math.abs(share - wanted)).toBeLessThan(0.02);
      });
    }
  },
);

test('a hint of other light is not believed: another colour, or less than the sensor saw', () => {
  const grey = seen([1.5, 1.5, 1.5], daylight);
  expect(rebuildHinted(grey, daylight, [1, 0.5, 0.3])).toEqual(rebuildHighlights(grey, daylight));
  const bright = seen([1.9, 1.9, 1.9], daylight);
  expect(rebuildHinted(bright, daylight, [1, 0.5, 0.3])).toEqual(rebuildHighlights(bright, daylight));
});

test('the kernel rebuilds by hints as the reference does, cells blended where they meet', () => {
  const hints: readonly Vector3[] = [
    [0.5, 0.3, 0.2],
    [0.3, 0.4, 0.3],
    [0.34, 0.33, 0.33],
    [0.2, 0.3, 0.5],
  ];
  const cells = Float32Array.from(hints.flatMap((hint) => [...hint, 1, 1]));
  // Evenly spread: `fc.double` prefers the ends.
  const share = fc.integer({ min: 0, max: 1000 }).map((thousandths) => thousandths / 1000);
  const jitter = share.map((value) => 0.85 + 0.3 * value);
  fc.assert(
    fc.property(fc.tuple(jitter, jitter, jitter), share, share, share, (jitters, level, x, y) => {
      // Light about the colour of the hints, so that it fits to them more or less.
      const rgb = Float32Array.from(jitters, (factor, at) =>
        Math.min(
          (hints[Math.round(x) + 2 * Math.round(y)]?.[at] ?? 0) * factor * level * 6,
          daylight[at] ?? 1,
        ),
      );
      const [r = 0, g = 0, b = 0] = rgb;
      const alone = rebuildHighlights([r, g, b], daylight);
      const [at, light] = [new Int32Array(1), new Float32Array(3)];
      const limits = Float64Array.from(daylight);
      const noted = noteLost(rgb, 0, 1, limits, at, light);
      rgb.set(alone);
      hintLost(rgb, 0, noted, at, light, limits, cells, 2, 2, x, 1, y);
      const hint = [0, 1, 2].map((i) => {
        const of = (cell: number): number => hints[cell]?.[i] ?? 0;
        return (1 - y) * ((1 - x) * of(0) + x * of(1)) + y * ((1 - x) * of(2) + x * of(3));
      });
      const expected = rebuildHinted([r, g, b], daylight, [hint[0] ?? 0, hint[1] ?? 0, hint[2] ?? 0]);
      expected.forEach((value, i) => {
        expect(Math.abs((rgb[i] ?? 0) - value)).toBeLessThan(2e-5);
      });
    }),
    { numRuns: 1000 },
  );
});
