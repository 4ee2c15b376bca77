import { expect, test } from 'vitest';
import { blockMeans } from './block-means.ts';

// By the definition: the values of a part, one after the other, over their number.
test.each([
  [37, 11, 10, 3],
  [64, 9, 24, 4],
  [7, 5, 3, 5],
  [3, 3, 5, 2],
])(
  'parts of a plane of %d x %d in %d x %d are their means, to the last digit',
  (widthPx, heightPx, columns, rows) => {
    const plane = Float32Array.from({ length: widthPx * heightPx }, (_, at) => Math.sin(at * at) + 0.1);
    const means = new Float64Array(columns * rows).fill(9);
    blockMeans(plane, widthPx, heightPx, columns, rows, means);
    const edge = (part: number, parts: number, length: number): number => Math.floor((part * length) / parts);
    means.forEach((mean, at) => {
      const [row, column] = [Math.floor(at / columns), at % columns];
      const values: number[] = [];
      for (let y = edge(row, rows, heightPx); y < edge(row + 1, rows, heightPx); y++) {
        const start = y * widthPx;
        values.push(
          ...plane.subarray(
            start + edge(column, columns, widthPx),
            start + edge(column + 1, columns, widthPx),
          ),
        );
      }
      expect(mean).toBe(values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length));
    });
  },
);
