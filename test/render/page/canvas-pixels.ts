import type { Page } from 'playwright-core';
import sharp from 'sharp';

/** Means over the cells of a grid, row by row, red, green, blue of each, 0 to 255. */
export type GridMeans = readonly number[];

export const gridCells = 24;

/** The picture on the page's canvas, read back pixel by pixel and averaged over a grid. */
export async function canvasMeans(page: Page): Promise<GridMeans> {
  const { width, height, base64 } = await page.evaluate(() => {
    const canvas = document.querySelector<HTMLCanvasElement>('[data-testid="picture"]');
    const pixels = canvas?.getContext('2d')?.getImageData(0, 0, canvas.width, canvas.height);
    const data = pixels?.data ?? new Uint8ClampedArray();
    let text = '';
    for (let at = 0; at < data.length; at += 32_768)
      text += String.fromCharCode(...data.subarray(at, at + 32_768));
    return { width: pixels?.width ?? 0, height: pixels?.height ?? 0, base64: btoa(text) };
  });
  return means(Buffer.from(base64, 'base64'), width, height, 4);
}

/** The expected picture: any file, brought to this size by libvips, in sRGB. */
export async function fileMeans(file: Buffer | string, width: number, height: number): Promise<GridMeans> {
  const { data } = await sharp(file)
    .autoOrient()
    .toColourspace('srgb')
    .removeAlpha()
    .resize(width, height, { fit: 'fill' })
    .raw()
    .toBuffer({ resolveWithObject: true });
  return means(data, width, height, 3);
}

/** The mean absolute difference of two grids, 8-bit units. */
export function meanDifference(one: GridMeans, other: GridMeans): number {
  const total = one.reduce((sum, value, index) => sum + Math.abs(value - (other[index] ?? 0)), 0);
  return total / one.length;
}

function means(bytes: ArrayLike<number>, width: number, height: number, channels: number): number[] {
  const sums = new Array<number>(gridCells * gridCells * 3).fill(0);
  const counts = new Array<number>(gridCells * gridCells).fill(0);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const cell = Math.floor((y * gridCells) / height) * gridCells + Math.floor((x * gridCells) / width);
      counts[cell] = (counts[cell] ?? 0) + 1;
      for (let channel = 0; channel < 3; channel += 1) {
        sums[cell * 3 + channel] =
          (sums[cell * 3 + channel] ?? 0) + (bytes[(y * width + x) * channels + channel] ?? 0);
      }
    }
  }
  return sums.map((sum, index) => sum / Math.max(1, counts[Math.floor(index / 3)] ?? 1));
}
