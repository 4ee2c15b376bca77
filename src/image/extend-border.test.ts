import { expect, test } from 'vitest';
import { extendBorder } from './extend-border.ts';

function made(widthPx: number, heightPx: number, value: (x: number, y: number) => number) {
  const data = new Uint16Array(widthPx * heightPx * 3);
  for (let at = 0; at < widthPx * heightPx; at++)
    data.fill(value(at % widthPx, Math.floor(at / widthPx)), at * 3, at * 3 + 3);
  return { data, widthPx, heightPx, channels: 3 } as const;
}

test('the picture lies where it was put, untouched, and one tone goes on to every edge', () => {
  const picture = made(40, 30, (x, y) => (x > 10 && x < 30 && y > 10 && y < 20 ? 9000 : 60_000));
  const { data, widthPx, heightPx } = extendBorder(picture, { widthPx: 100, heightPx: 90 }, 25, 35);
  expect([widthPx, heightPx]).toEqual([100, 90]);
  for (let y = 0; y < 90; y++) {
    for (let x = 0; x < 100; x++) {
      const inside = x >= 25 && x < 65 && y >= 35 && y < 65;
      const wanted = inside ? picture.data[((y - 35) * 40 + x - 25) * 3] : 60_000;
      expect(data[(y * 100 + x) * 3 + 1], `${x} ${y}`).toBe(wanted);
    }
  }
});

test('light that falls off along a side goes on beyond it without a step', () => {
  const picture = made(200, 100, (x) => 40_000 + 50 * x);
  const { data } = extendBorder(picture, { widthPx: 240, heightPx: 180 }, 20, 40);
  // Within the reach over which a side is evened out, its ends are not its own mean.
  for (let x = 40; x < 200; x += 10) {
    expect(data[(10 * 240 + x) * 3]).toBe(40_000 + 50 * (x - 20));
    expect(data[(170 * 240 + x) * 3]).toBe(40_000 + 50 * (x - 20));
  }
  // Sideways the tone is that of the outermost columns: half of eight columns off the last.
  expect(data[(90 * 240 + 2) * 3]).toBe(40_000 + 50 * 3.5);
});

test('noise goes on with its deviation, and the same picture gives the same frame', () => {
  const noisy = made(300, 200, (x, y) => 50_000 + (((x * 7919 + y * 104_729) * 2_654_435_761) % 997) - 498);
  const deviation = (data: Uint16Array, rows: readonly number[]): number => {
    const values = rows.flatMap((y) => Array.from({ length: 300 }, (_, x) => data[(y * 300 + x) * 3] ?? 0));
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length);
  };
  const frame = { widthPx: 300, heightPx: 300 };
  const { data } = extendBorder(noisy, frame, 0, 100);
  const [beyond, inside] = [deviation(data, [10, 30, 50, 70]), deviation(data, [110, 130, 150, 170])];
  expect(beyond / inside).toBeGreaterThan(0.8);
  expect(beyond / inside).toBeLessThan(1.25);
  expect(extendBorder(noisy, frame, 0, 100).data).toEqual(data);
});
