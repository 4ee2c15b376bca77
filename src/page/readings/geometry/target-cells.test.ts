import { expect, test } from 'vitest';
import { targetCells } from './target-cells.ts';

const patches = Array.from({ length: 24 }, (_, at) => ({
  patch: at + 1,
  published: '#808080',
  measured: null,
  deltaE00: null,
  deltaL: null,
  deltaC: null,
  saturatedPercent: 0,
}));

test('a target that lies straight is parted into equal cells, row by row', () => {
  const cells = targetCells(
    {
      corners: [
        [0, 0],
        [0.6, 0],
        [0.6, 0.4],
        [0, 0.4],
      ],
      patches,
    },
    0,
  );
  const middles = cells.map(({ middle: [x, y] }) => [Math.round(x * 1e9) / 1e9, Math.round(y * 1e9) / 1e9]);
  expect(middles[0]).toEqual([0.05, 0.05]);
  expect(middles[5]).toEqual([0.55, 0.05]);
  expect(middles[18]).toEqual([0.05, 0.35]);
  expect(middles[23]).toEqual([0.55, 0.35]);
});

test('tilted away from the camera, straight lines stay straight: the middle lies where the diagonals cross', () => {
  const corners: Parameters<typeof targetCells>[0]['corners'] = [
    [0.2, 0.2],
    [0.5, 0.2],
    [0.7, 0.8],
    [0, 0.8],
  ];
  const cells = targetCells({ corners, patches }, 0);
  // Corner of patches 9, 10, 15 and 16: the middle of the field. The diagonals cross at (0.35, 0.38) (by hand: 3 to 7 of the way).
  const [x, y] = cells[8]?.corners[2] ?? [0, 0];
  expect(x).toBeCloseTo(0.35, 9);
  expect(y).toBeCloseTo(0.38, 9);
  expect(cells[0]?.corners[0]).toEqual([0.2, 0.2]);
  expect(cells[23]?.corners[2]?.[0]).toBeCloseTo(0.7, 9);
});
