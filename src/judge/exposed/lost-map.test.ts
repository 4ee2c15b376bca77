import { expect, test } from 'vitest';
import { type LostMap, lostBits, type Orientation } from '../../facts/index.ts';
import { clippedBlocks, clippedPixels } from '../kernels/clipped-areas.ts';
import { madeMosaic, madeWhite } from '../testing/made-mosaic.ts';
import { lostMapOfMosaic, lostMapOfPicture } from './lost-map.ts';

const limits = new Float64Array(4).fill(madeWhite);

function cellsOf({ columns, rows, runs }: LostMap): number[] {
  const cells: number[] = [];
  for (let at = 0; at < runs.length; at += 2)
    cells.push(...new Array<number>(runs[at] ?? 0).fill(runs[at + 1] ?? 0));
  expect(cells).toHaveLength(columns * rows);
  return cells;
}

/** 480 x 320, so that a cell is one block: red is lost in columns 40 to 59 of rows 20 to 29, and nothing else. */
function made(orientation: Orientation): LostMap {
  const mosaic = {
    ...madeMosaic(480, 320, (x, y, filter) =>
      filter === 0 && x >= 40 && x < 60 && y >= 20 && y < 30 ? 1.2 : 0.3,
    ),
    orientation,
  };
  const mask = new Uint8Array(240 * 160);
  clippedBlocks(mosaic.values, 480, 320, limits, mask);
  return lostMapOfMosaic(mosaic, limits, mask);
}

test('the cells of a lost channel are those it was lost in, and no other channel is named', () => {
  const map = made(1);
  expect([map.columns, map.rows]).toEqual([240, 160]);
  cellsOf(map).forEach((bits, at) => {
    const [x, y] = [at % 240, Math.floor(at / 240)];
    expect(bits).toBe(x >= 20 && x < 30 && y >= 10 && y < 15 ? lostBits.red : 0);
  });
});

test('a camera held on its side: the map is that of the picture as it is seen', () => {
  // Exif 2.32, orientation 6: row 0 is the right side, column 0 the top. So stored (x, y) is seen at (159 - y, x).
  const map = made(6);
  expect([map.columns, map.rows]).toEqual([160, 240]);
  const cells = cellsOf(map);
  expect(cells.filter((bits) => bits !== 0)).toHaveLength(50);
  for (let y = 20; y < 30; y++) {
    for (let x = 145; x < 150; x++) expect(cells[y * 160 + x]).toBe(lostBits.red);
  }
});

test('a picture’s channels at their last code are told apart', () => {
  const data = new Uint8Array(30 * 20 * 3).fill(100);
  data[3 * (5 * 30 + 7) + 2] = 255;
  data.fill(255, 3 * (6 * 30 + 7), 3 * (6 * 30 + 7) + 2);
  const mask = new Uint8Array(600);
  clippedPixels(data, mask);
  const cells = cellsOf(lostMapOfPicture({ data, widthPx: 30, heightPx: 20, channels: 3 }, mask));
  expect(cells[5 * 30 + 7]).toBe(lostBits.blue);
  expect(cells[6 * 30 + 7]).toBe(lostBits.red + lostBits.green);
  expect(cells.filter((bits) => bits !== 0)).toHaveLength(2);
});

test('glitter all over makes the map coarser, never larger', () => {
  const mosaic = madeMosaic(480, 320, (x, y) => (((x >> 1) + (y >> 1)) % 2 === 0 ? 1.2 : 0.3));
  const mask = new Uint8Array(240 * 160);
  clippedBlocks(mosaic.values, 480, 320, limits, mask);
  const map = lostMapOfMosaic(mosaic, limits, mask);
  expect([map.columns, map.rows]).toEqual([120, 80]);
  expect(map.runs.length).toBeLessThanOrEqual(16_000);
});
