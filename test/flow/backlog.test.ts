import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { renderFrame } from '../../src/stand-in/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** Half an hour ago, as the camera's clock has it: a drop of the line that nobody noticed. */
const droppedMs = Math.floor(Date.now() / 1000) * 1000 - 1_800_000;
const apartMs = 60_000;
const older = 5;

/**
 * The camera lost its network and took six frames meanwhile. Back again it sends the newest first, then the others from
 * the oldest on: whoever looks at the page must go on seeing the newest.
 */
describe.skipIf(!hasBrowser || !hasProgram('curl'))('a backlog after a drop', () => {
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

  const nameOf = (index: number): string => `QMST${String(index + 1).padStart(4, '0')}.DNG`;

  const send = async (index: number): Promise<void> => {
    const shutterMs = droppedMs + index * apartMs;
    const { bytes } = await renderFrame({ sizeMegapixels: 0.05, shutterMs });
    const file = join(station.home, nameOf(index));
    await writeFile(file, bytes);
    const ran = await curlUpload(station, file, `/DCIM/100SETSD/${nameOf(index)}`);
    expect(ran.code, ran.stderr).toBe(0);
  };

  test('the newest by its shutter stays on the page while the older ones come in behind it', async () => {
    await send(0);
    await page.locator('.caption-frame strong', { hasText: nameOf(0) }).waitFor();
    await send(older + 1);
    const newest = nameOf(older + 1);
    await page.locator('.caption-frame strong', { hasText: newest }).waitFor();
    await page.evaluate(keepWhatIsShown);
    for (let index = 1; index <= older; index += 1) await send(index);
    await eventually('all are rendered', async () => {
      const frames = await station.frames();
      return frames.length === older + 2 && frames.every(({ picture }) => picture.state === 'rendered');
    });
    await page.waitForFunction(
      (count) => document.querySelectorAll('.rail-frame').length === count,
      older + 2,
    );
    expect(await page.evaluate(() => Reflect.get(window, 'shown'))).toEqual([newest]);
  });

  test('the rail has them in the order of their shutters, the newest at its end and in sight', async () => {
    const names = await page.locator('.rail-frame').evaluateAll((buttons) =>
      buttons
        .map((button) => ({ top: button.getBoundingClientRect().top, name: button.ariaLabel ?? '' }))
        .sort((one, other) => one.top - other.top)
        .map(({ name }) => name.slice(0, 12)),
    );
    expect(names).toEqual(Array.from({ length: older + 2 }, (_, index) => nameOf(index)));
    const last = await page.locator('.rail-frame[aria-current="true"]').boundingBox();
    expect(last === null ? Number.POSITIVE_INFINITY : last.y + last.height).toBeLessThanOrEqual(800);
  });
});

/** Every name that stands under the picture from now on, each once. */
function keepWhatIsShown(): void {
  const shown: string[] = [];
  Object.assign(window, { shown });
  const look = (): void => {
    const name = document.querySelector('.caption-frame strong')?.textContent ?? '';
    if (shown.at(-1) !== name) shown.push(name);
    requestAnimationFrame(look);
  };
  look();
}
