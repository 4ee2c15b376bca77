import { expect, test } from 'vitest';
import { type Inspection, inspect, sourceOfBytes } from '../../formats/index.ts';
import { viewPixelsMax, viewToCut } from './first-view.ts';

/** ITU-T T.81 B.2: SOI, a baseline frame header (B.2.2) of this size, one scan header (B.2.3), a little data, EOI. */
function jpegOf(widthPx: number, heightPx: number, whole = true): Inspection {
  const two = (value: number): number[] => [value >> 8, value & 0xff];
  const frame = [0xff, 0xc0, ...two(11), 8, ...two(heightPx), ...two(widthPx), 1, 1, 0x11, 0];
  const scan = [0xff, 0xda, ...two(8), 1, 1, 0, 0, 63, 0, 1, 2, 3, 4];
  const tables = [0xff, 0xdb, ...two(67), 0, ...new Array<number>(64).fill(1)];
  const end = whole ? [0xff, 0xd9] : [];
  return inspect(sourceOfBytes(Uint8Array.from([0xff, 0xd8, ...tables, ...frame, ...scan, ...end])));
}

test('a view is cut out up to the bound of pixels, and not beyond it', () => {
  const heightPx = 10_000;
  const widthPx = viewPixelsMax / heightPx;
  expect(viewToCut(jpegOf(widthPx, heightPx), null)).toMatchObject({ complete: true, widthPx, heightPx });
  expect(viewToCut(jpegOf(widthPx + 1, heightPx), null)).toBeNull();
  const part = viewToCut(jpegOf(widthPx, heightPx, false), null);
  expect(part).toMatchObject({ complete: false, widthPx, heightPx });
  expect(viewToCut(jpegOf(widthPx + 1, heightPx, false), null)).toBeNull();
});
