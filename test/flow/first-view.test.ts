import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Frame } from '../../src/contract/index.ts';
import { renderFrame } from '../../src/stand-in/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { curlStream, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';
import { readPicture, type ShownPicture } from './shown-picture.ts';

/** What the canvas looked like at one animation frame. */
interface Sample {
  readonly state: string;
  readonly version: string;
  readonly box: readonly number[];
  /** Alpha of nine points spread over the canvas, 0 where nothing is painted. */
  readonly leastAlpha: number;
}

/** What is sent before anybody looks; the rest follows only when the page has shown the picture. */
const sentFirst = 0.32;

describe.skipIf(!hasBrowser || !hasProgram('curl'))('first view of an upload that is under way', () => {
  let station: RunningStation;
  let browser: Browser;
  let page: Page;
  let first: ShownPicture;
  let wordsThen: string;
  let framesThen: Frame[];

  beforeAll(async () => {
    station = await startStation(await newHome());
    const raw = (await renderFrame({ sizeMegapixels: 2 })).bytes;
    browser = await launchBrowser();
    page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    await page.goto(station.ready.web);
    await page.evaluate(sampleEveryFrame);
    const upload = curlStream(station, '/DCIM/100SETSD/QMST0001.DNG');
    const held = Math.floor(raw.length * sentFirst);
    upload.input.write(raw.subarray(0, held));
    first = await eventually('the first view is on the canvas', async () => {
      const picture = await readPicture(page);
      return picture?.state === 'first-view' && framedBytes(await station.frames()) > held / 2
        ? picture
        : null;
    });
    framesThen = await station.frames();
    wordsThen = await page.evaluate(() => document.body.textContent ?? '');
    upload.input.end(raw.subarray(held));
    const ran = await upload.ended;
    expect(ran.code, ran.stderr).toBe(0);
  });

  afterAll(async () => {
    await browser?.close();
    await station?.stop();
    await removeHome(station.home);
  });

  test('it is on the page before a third of the file has arrived', () => {
    expect(framesThen[0]?.files[0]).toMatchObject({ state: 'arriving', sha256: null });
    // A picture, not a plain area: many levels of green (decision 0008, measuring 23: pixels read back from the canvas).
    expect(new Set(first.pixels.filter((_, at) => at % 4 === 1)).size).toBeGreaterThan(50);
  });

  test('it is marked as the camera’s preview, with the share that has arrived', () => {
    expect(wordsThen).toMatch(/camera’s preview/);
    expect(wordsThen).toMatch(/\b(2\d|3[0-3]) ?%/);
  });

  test('the rendering takes its place without a jump: the same box within 2 px and no blank frame', async () => {
    await eventually('the rendering is painted', async () => (await readPicture(page))?.state === 'rendered');
    const samples = await takeSamples(page);
    const painted = samples.slice(samples.findIndex(({ state }) => state === 'first-view'));
    expect(painted.some(({ state }) => state === 'rendered')).toBe(true);
    expect(Math.min(...painted.map(({ leastAlpha }) => leastAlpha))).toBe(255);
    const box = painted[0]?.box ?? [];
    expect(box).toHaveLength(4);
    for (const sample of painted) {
      for (const [at, edge] of sample.box.entries())
        expect(Math.abs(edge - (box[at] ?? 0))).toBeLessThanOrEqual(2);
    }
  });
});

function framedBytes(frames: readonly Frame[]): number {
  return frames[0]?.files[0]?.size ?? 0;
}

/** Runs in the page: notes at every animation frame what is on the canvas. */
function sampleEveryFrame(): void {
  const samples: Sample[] = [];
  Object.assign(window, { setsideSamples: samples });
  const look = (): void => {
    const canvas = document.querySelector<HTMLCanvasElement>('[data-testid="picture"]');
    if (canvas !== null && !canvas.hidden && canvas.width > 0) {
      const { left, top, width, height } = canvas.getBoundingClientRect();
      const context = canvas.getContext('2d');
      const alphas = [0.1, 0.5, 0.9].flatMap((x) =>
        [0.1, 0.5, 0.9].map(
          (y) =>
            context?.getImageData(Math.floor(x * canvas.width), Math.floor(y * canvas.height), 1, 1)
              .data[3] ?? 0,
        ),
      );
      samples.push({
        state: canvas.dataset.state ?? '',
        version: canvas.dataset.version ?? '',
        box: [left, top, width, height],
        leastAlpha: Math.min(...alphas),
      });
    }
    requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}

function takeSamples(page: Page): Promise<Sample[]> {
  return page.evaluate(() => (window as unknown as { setsideSamples: Sample[] }).setsideSamples);
}
