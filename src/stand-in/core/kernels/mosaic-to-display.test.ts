import { expect, test } from 'vitest';
import { mosaicToDisplay } from './mosaic-to-display.ts';

/**
 * The filters as the paper prints them (Malvar, He and Cutler 2004, figure 2), in eighths, applied by the book. `alike`:
 * the wanted colour lies left and right of a green sample; turned, above and below.
 */
const greenAtOther = [
  [0, 0, -1, 0, 0],
  [0, 0, 2, 0, 0],
  [-1, 2, 4, 2, -1],
  [0, 0, 2, 0, 0],
  [0, 0, -1, 0, 0],
];
const alike = [
  [0, 0, 0.5, 0, 0],
  [0, -1, 0, -1, 0],
  [-1, 4, 5, 4, -1],
  [0, -1, 0, -1, 0],
  [0, 0, 0.5, 0, 0],
];
const turned = alike[0]?.map((_, column) => alike.map((row) => row[column] ?? 0)) ?? [];
const acrossCorner = [
  [0, 0, -1.5, 0, 0],
  [0, 2, 0, 2, 0],
  [-1.5, 0, 6, 0, -1.5],
  [0, 2, 0, 2, 0],
  [0, 0, -1.5, 0, 0],
];
const itself = [[], [], [0, 0, 8, 0, 0], [], []];

/** Filters for red, green and blue at the four places of RGGB. */
const filters = [
  [itself, greenAtOther, acrossCorner],
  [alike, itself, turned],
  [turned, itself, alike],
  [acrossCorner, greenAtOther, itself],
];

const widthPx = 12;
const heightPx = 8;

function reference(mosaic: Uint16Array): number[] {
  /** Mirrored at the edges without repeating them. */
  const inside = (at: number, size: number): number => (at < 0 ? -at : at >= size ? 2 * size - 2 - at : at);
  const pixels = Array.from({ length: widthPx * heightPx }, (_, index) => index);
  return pixels.flatMap((index) => {
    const [x, y] = [index % widthPx, Math.floor(index / widthPx)];
    return (filters[(y % 2) * 2 + (x % 2)] ?? []).map((filter) => {
      let sum = 0;
      filter.forEach((row, dy) => {
        row.forEach((weight, dx) => {
          const from = inside(y + dy - 2, heightPx) * widthPx + inside(x + dx - 2, widthPx);
          sum += (weight / 8) * (mosaic[from] ?? 0);
        });
      });
      return Math.min(255, Math.max(0, Math.floor(sum + 0.5)));
    });
  });
}

function display(
  mosaic: Uint16Array,
  changes: { blackLevels?: number[]; balance?: number[] } = {},
): number[] {
  const rgb = new Uint8Array(widthPx * heightPx * 3);
  mosaicToDisplay(
    {
      mosaic,
      widthPx,
      heightPx,
      blackLevels: changes.blackLevels ?? [0, 0, 0, 0],
      scale: 1,
      balance: Float32Array.from(changes.balance ?? [1, 1, 1]),
      toDisplay: Float32Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1),
      curve: Uint8Array.from({ length: 256 }, (_, index) => index),
    },
    rgb,
  );
  return [...rgb];
}

test('every pixel, edges and corners included, is what the paper’s filters give', () => {
  // Fixed noise: multiples of a prime modulo another.
  const mosaic = Uint16Array.from({ length: widthPx * heightPx }, (_, index) => (index * 7919) % 251);
  expect(display(mosaic)).toEqual(reference(mosaic));
});

test('a colour that is the same everywhere is the same in every pixel, black taken off and balanced', () => {
  const blackLevels = [20, 24, 16, 30];
  // 100 red, 50 green and 80 blue above black; doubled red and half blue make it 200, 50, 40.
  const levels = [100, 50, 50, 80].map((level, place) => level + (blackLevels[place] ?? 0));
  const mosaic = Uint16Array.from({ length: widthPx * heightPx }, (_, index) => {
    return levels[(Math.floor(index / widthPx) % 2) * 2 + (index % 2)] ?? 0;
  });
  const found = display(mosaic, { blackLevels, balance: [2, 1, 0.5] });
  expect(found).toEqual(Array.from({ length: widthPx * heightPx }, () => [200, 50, 40]).flat());
});
