import fc from 'fast-check';
import { expect, test } from 'vitest';
import { tileEdgePx, tilesFor } from './tile-grid.ts';

const picture = { widthPx: 1300, heightPx: 900 };
const all = { leftPx: 0, topPx: 0, rightPx: 1300, bottomPx: 900 };

test('tiles cover the picture once, the last of a row or column as large as is left', () => {
  const tiles = tilesFor(all, picture);
  expect(tiles).toHaveLength(6);
  const pixels = tiles.reduce((sum, tile) => sum + tile.widthPx * tile.heightPx, 0);
  expect(pixels).toBe(1300 * 900);
  expect(tiles).toContainEqual({ leftPx: 1024, topPx: 512, widthPx: 276, heightPx: 388 });
});

test('the one nearest to the middle of what is seen comes first', () => {
  const [first] = tilesFor({ leftPx: 400, topPx: 400, rightPx: 1300, bottomPx: 900 }, picture);
  expect(first).toMatchObject({ leftPx: 512, topPx: 512 });
});

test('every pixel seen lies in a tile, and every tile is seen', () => {
  const share = fc.double({ min: 0, max: 1, noNaN: true });
  fc.assert(
    fc.property(share, share, share, share, (x1, x2, y1, y2) => {
      const part = {
        leftPx: Math.min(x1, x2) * 1300,
        rightPx: Math.max(x1, x2) * 1300,
        topPx: Math.min(y1, y2) * 900,
        bottomPx: Math.max(y1, y2) * 900,
      };
      const tiles = tilesFor(part, picture);
      for (const tile of tiles) {
        expect(tile.leftPx % tileEdgePx).toBe(0);
        expect(tile.leftPx).toBeLessThan(part.rightPx);
        expect(tile.leftPx + tile.widthPx).toBeGreaterThanOrEqual(part.leftPx);
      }
      if (part.rightPx > part.leftPx && part.bottomPx > part.topPx) {
        const holds = (x: number, y: number): boolean =>
          tiles.some(
            (tile) =>
              x >= tile.leftPx &&
              x < tile.leftPx + tile.widthPx &&
              y >= tile.topPx &&
              y < tile.topPx + tile.heightPx,
          );
        expect(holds(part.leftPx, part.topPx)).toBe(true);
        const [x, y] = [(part.leftPx + part.rightPx) / 2, (part.topPx + part.bottomPx) / 2];
        // The middle of a part as thin as a float's last digit is its open end, which the next tile holds.
        if (x < part.rightPx && y < part.bottomPx) expect(holds(x, y)).toBe(true);
      } else expect(tiles).toEqual([]);
    }),
  );
});
