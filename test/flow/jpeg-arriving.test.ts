import type { Browser, Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { curlStream, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';
import { readPicture, type ShownPicture } from './shown-picture.ts';

const stored = { width: 3000, height: 2000 };

/** What libjpeg gives where no data has come: every coefficient 0, so mid grey (ITU-T T.81 A.3.1, level shift). */
const grey = 128;

/** The page scales with another filter than libvips does; colours are subsampled. Levels of 255. */
const colourTolerance = 6;

/** Noise makes the file large, ramps across and down tell one place from another. */
async function photograph(progressive: boolean, orientation: number): Promise<Buffer> {
  const { width, height } = stored;
  const pixels = Buffer.alloc(width * height * 3);
  let noise = 1;
  for (let at = 0, y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      noise = (Math.imul(noise, 1_103_515_245) + 12_345) >>> 0;
      const grain = (noise >>> 24) / 4;
      pixels[at++] = (x / width) * 190 + grain;
      pixels[at++] = (y / height) * 190 + grain;
      pixels[at++] = grain;
    }
  }
  return sharp(pixels, { raw: { width, height, channels: 3 } })
    .withMetadata({ orientation })
    .jpeg({ quality: 92, progressive })
    .toBuffer();
}

describe.skipIf(!hasBrowser || !hasProgram('curl'))('a JPEG that is half there', () => {
  let station: RunningStation;
  let browser: Browser;
  let page: Page;

  beforeAll(async () => {
    station = await startStation(await newHome());
    browser = await launchBrowser();
    page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    await page.goto(station.ready.web);
  });

  afterAll(async () => {
    await browser?.close();
    await station?.stop();
    await removeHome(station.home);
  });

  test('baseline, camera turned: its beginning is on the canvas, the rest grey, in the box of the whole picture', async () => {
    const jpeg = await photograph(false, 6);
    const upload = await uploadHalf('/DCIM/100SETSD/QMST0001.JPG', jpeg);
    // Orientation 6: the first row as stored is the right edge of the picture (Exif 2.32 section 4.6.4).
    const half = await eventually('the right third is there', async () => {
      const shown = await firstView();
      return shown !== null && !isGrey(patch(shown, 0.7, 0.5)) ? shown : null;
    });
    expect(half.width / half.height).toBeCloseTo(stored.height / stored.width, 2);
    const truth = await uprightAt(jpeg, half);
    for (const x of [0.75, 0.85, 0.95]) near(patch(half, x, 0.4), patch(truth, x, 0.4));
    for (const x of [0.05, 0.2]) near(patch(half, x, 0.5), [grey, grey, grey]);
    await finished(upload, jpeg, half);
  });

  test('progressive: all of it is there, coarser', async () => {
    const jpeg = await photograph(true, 1);
    const upload = await uploadHalf('/DCIM/100SETSD/QMST0002.JPG', jpeg);
    const half = await eventually('the bottom is there', async () => {
      const shown = await firstView();
      return shown !== null && shown.width > shown.height && !isGrey(patch(shown, 0.5, 0.95)) ? shown : null;
    });
    const truth = await uprightAt(jpeg, half);
    for (const [x, y] of places) near(patch(half, x, y), patch(truth, x, y));
    await finished(upload, jpeg, half);
  });

  async function uploadHalf(path: string, jpeg: Buffer): Promise<ReturnType<typeof curlStream>> {
    const upload = curlStream(station, path);
    upload.input.write(jpeg.subarray(0, jpeg.length >> 1));
    return upload;
  }

  async function firstView(): Promise<ShownPicture | null> {
    const shown = await readPicture(page);
    return shown?.state === 'first-view' ? shown : null;
  }

  /** The rest comes, and the rendering takes the place of the part in the same box. */
  async function finished(
    upload: ReturnType<typeof curlStream>,
    jpeg: Buffer,
    half: ShownPicture,
  ): Promise<void> {
    const frame = await station.frame(half.frame);
    expect(frame.files[0]).toMatchObject({ state: 'arriving' });
    expect(frame.picture).toMatchObject({ state: 'first-view' });
    upload.input.end(jpeg.subarray(jpeg.length >> 1));
    const ran = await upload.ended;
    expect(ran.code, ran.stderr).toBe(0);
    const whole = await eventually('the rendering is on the canvas', async () => {
      const shown = await readPicture(page);
      return shown?.state === 'rendered' && shown.frame === half.frame ? shown : null;
    });
    expect([whole.width, whole.height]).toEqual([half.width, half.height]);
    const truth = await uprightAt(jpeg, whole);
    for (const [x, y] of places) near(patch(whole, x, y), patch(truth, x, y));
  }
});

const places = [
  [0.1, 0.1],
  [0.9, 0.1],
  [0.5, 0.5],
  [0.1, 0.9],
  [0.9, 0.9],
] as const;

type Patch = readonly [number, number, number];

/** Mean colour of 24 x 24 pixels round a place, given as shares of width and height. */
function patch(
  { width, height, pixels }: Pick<ShownPicture, 'width' | 'height' | 'pixels'>,
  x: number,
  y: number,
): Patch {
  const sums: [number, number, number] = [0, 0, 0];
  const side = 24;
  const left = Math.min(width - side, Math.max(0, Math.round(x * width) - side / 2));
  const top = Math.min(height - side, Math.max(0, Math.round(y * height) - side / 2));
  for (let row = top; row < top + side; row++) {
    for (let column = left; column < left + side; column++) {
      for (const channel of [0, 1, 2] as const)
        sums[channel] += pixels[(row * width + column) * 4 + channel] ?? 0;
    }
  }
  const count = side * side;
  return [sums[0] / count, sums[1] / count, sums[2] / count];
}

function isGrey(colour: Patch): boolean {
  return colour.every((level) => Math.abs(level - grey) < 1);
}

function near(colour: Patch, expected: Patch): void {
  for (const channel of [0, 1, 2] as const) {
    expect(Math.abs(colour[channel] - expected[channel])).toBeLessThanOrEqual(colourTolerance);
  }
}

/** The whole picture as libvips decodes, turns and scales it. */
async function uprightAt(
  jpeg: Buffer,
  { width, height }: ShownPicture,
): Promise<Pick<ShownPicture, 'width' | 'height' | 'pixels'>> {
  const pixels = await sharp(jpeg)
    .rotate()
    .resize(width, height, { fit: 'fill' })
    .ensureAlpha()
    .raw()
    .toBuffer();
  return { width, height, pixels: new Uint8ClampedArray(pixels) };
}
