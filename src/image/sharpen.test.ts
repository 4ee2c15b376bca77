import { expect, test } from 'vitest';
import { sharpen } from './sharpen.ts';

function picture(values: readonly number[], widthPx: number) {
  const data = Uint16Array.from(values.flatMap((value) => [value, value / 2, value / 4]));
  return { data, widthPx, heightPx: values.length / widthPx, channels: 3 as const };
}

test('an even picture stays as it is, and so does every picture at strength 0', () => {
  const even = picture(
    Array.from({ length: 48 }, () => 20_000),
    8,
  );
  sharpen(even, { widthPx: 1, strength: 2 });
  expect(even).toEqual(
    picture(
      Array.from({ length: 48 }, () => 20_000),
      8,
    ),
  );
  const step = picture([0, 0, 40_000, 40_000], 4);
  sharpen(step, { widthPx: 1, strength: 0 });
  expect(step).toEqual(picture([0, 0, 40_000, 40_000], 4));
});

/** A long step through a Gaussian is the error function: half a pixel beside it Phi(0.5 / sigma) of its height (Abramowitz and Stegun, 26.2). */
test('beside a step the overshoot is what the error function says, alike across and down', () => {
  const [low, high, edge] = [10_000, 30_000, 20];
  const across = picture(
    Array.from({ length: edge * edge }, (_, at) => (at % edge < edge / 2 ? low : high)),
    edge,
  );
  const down = picture(
    Array.from({ length: edge * edge }, (_, at) => (at < (edge * edge) / 2 ? low : high)),
    edge,
  );
  sharpen(across, { widthPx: 2, strength: 1 });
  sharpen(down, { widthPx: 2, strength: 1 });
  const luma = (value: number): number => value * (0.2126 + 0.7152 / 2 + 0.0722 / 4);
  // Phi(0.25) = 0.59871, table 26.1: the Gaussian brings the first bright pixel down by 0.40129 of the step.
  const expected = high + luma(high - low) * 0.40129;
  const middle = (edge * 10 + 10) * 3;
  expect((across.data[middle] ?? 0) / expected).toBeCloseTo(1, 2);
  expect(down.data[(edge * 10 + 10) * 3]).toBe(across.data[middle]);
});

test('values stay within their bits, and no channel moves otherwise than the others', () => {
  const steep = picture([0, 0, 65_532, 65_532], 4);
  sharpen(steep, { widthPx: 1, strength: 3 });
  expect([steep.data[3], steep.data[6]]).toEqual([0, 65_535]);
  const step = picture([20_000, 20_000, 24_000, 24_000], 4);
  const before = step.data.slice();
  sharpen(step, { widthPx: 1, strength: 1 });
  const moved = [6, 7, 8].map((at) => (step.data[at] ?? 0) - (before[at] ?? 0));
  expect(moved[0]).toBeGreaterThan(100);
  expect(Math.max(...moved) - Math.min(...moved)).toBeLessThanOrEqual(1);
});
