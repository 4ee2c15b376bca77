import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { renderFrame } from '../../src/stand-in/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/**
 * 8-bit units. Two decoders of one JPEG may differ by one (ISO/IEC 10918-2), and the browser takes the picture through
 * its profile to the canvas: one more.
 */
const sameCodesMax = 2;

describe.skipIf(!hasBrowser || !hasProgram('curl'))('looking at a raw pixel for pixel', () => {
  let station: RunningStation;

  beforeAll(async () => {
    station = await startStation(await newHome());
  });

  afterAll(async () => {
    await station?.stop();
    await removeHome(station.home);
  });

  test('the canvas has the pixels of the station’s own region, as libvips decodes it', async () => {
    const file = join(station.home, 'QMST0001.DNG');
    await writeFile(file, (await renderFrame({ sizeMegapixels: 0.5 })).bytes);
    expect((await curlUpload(station, file, '/DCIM/100SETSD/QMST0001.DNG')).code).toBe(0);
    const browser = await launchBrowser();
    try {
      const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
      await page.goto(station.ready.web);
      const canvas = page.locator('[data-testid="picture"][data-state="rendered"]');
      await canvas.waitFor();
      await page.keyboard.press('p');
      await page.locator('[data-testid="picture"][data-zoom="1"][data-missing="0"]').waitFor();
      const edge = 256;
      const middle = await canvas.evaluate((element, size) => {
        const { width, height } = element as HTMLCanvasElement;
        const left = Math.floor((width - size) / 2);
        const top = Math.floor((height - size) / 2);
        const context = (element as HTMLCanvasElement).getContext('2d');
        return {
          width,
          height,
          left,
          top,
          data: [...(context?.getImageData(left, top, size, size).data ?? [])],
        };
      }, edge);
      const [frame] = await station.frames();
      if (frame?.picture.state !== 'rendered') throw new Error('expected the frame rendered');
      // The picture's middle lies in the canvas's, on whole pixels.
      const left = middle.left - Math.round(middle.width / 2 - frame.picture.width / 2);
      const top = middle.top - Math.round(middle.height / 2 - frame.picture.height / 2);
      const expected = await regionByTiles(frame.id, left, top, edge);
      const largest = expected.reduce(
        (most, value, at) => Math.max(most, Math.abs(value - (middle.data[at] ?? 0))),
        0,
      );
      expect(largest).toBeLessThanOrEqual(sameCodesMax);
    } finally {
      await browser.close();
    }
  });

  /** A square of the picture put together from the tiles of 512 pixels that the page asks for; RGBA. */
  async function regionByTiles(id: string, left: number, top: number, edge: number): Promise<Buffer> {
    const tile = 512;
    const [fromX, fromY] = [Math.floor(left / tile) * tile, Math.floor(top / tile) * tile];
    const parts = [];
    for (let y = fromY; y < top + edge; y += tile) {
      for (let x = fromX; x < left + edge; x += tile) {
        const query = `left=${x}&top=${y}&width=${tile}&height=${tile}`;
        const answer = await fetch(`${station.ready.web}/api/v1/frames/${id}/region?${query}`);
        const input = Buffer.from(await answer.arrayBuffer());
        parts.push({ input, left: x - fromX, top: y - fromY });
      }
    }
    const size = { width: 2 * tile, height: 2 * tile, channels: 3, background: '#f0f' } as const;
    const together = await sharp({ create: size }).composite(parts).png().toBuffer();
    return sharp(together)
      .extract({ left: left - fromX, top: top - fromY, width: edge, height: edge })
      .ensureAlpha()
      .raw()
      .toBuffer();
  }
});
