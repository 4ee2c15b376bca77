import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { renderFrame } from '../../src/stand-in/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { axeFindings } from '../render/page/axe.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

describe.skipIf(!hasBrowser || !hasProgram('curl'))('the crop on the picture of the Look page', () => {
  let station: RunningStation;
  let browser: Awaited<ReturnType<typeof launchBrowser>>;

  beforeAll(async () => {
    station = await startStation(await newHome());
    const file = join(station.home, 'QMST0001.DNG');
    await writeFile(file, (await renderFrame({ sizeMegapixels: 0.5 })).bytes);
    expect((await curlUpload(station, file, '/DCIM/100SETSD/QMST0001.DNG')).code).toBe(0);
    await eventually('the frame is rendered', async () =>
      (await station.frames()).find(({ picture }) => picture.state === 'rendered'),
    );
    browser = await launchBrowser();
  });

  afterAll(async () => {
    await browser?.close();
    await station?.stop();
    await removeHome(station.home);
  });

  /** A square crop, its frame on the picture. */
  async function open(): Promise<Page> {
    const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
    const page = await context.newPage();
    await page.goto(`${station.ready.web}/look`);
    await page.locator('[data-testid="look-picture"][data-state="shown"]').waitFor();
    await page.locator('.strip-piece[data-instrument="geometry"]').click();
    await page.getByRole('button', { name: '1:1', exact: true }).click();
    await page.getByRole('button', { name: 'Set it on the picture' }).click();
    await page.locator('.crop-hold').waitFor();
    return page;
  }

  const figure = async (page: Page, name: string): Promise<number> => {
    const knob = page.locator('.look-bench').getByRole('slider', { name, exact: true });
    return Number(await knob.getAttribute('aria-valuenow'));
  };
  const box = async (page: Page, selector: string) => {
    const found = await page.locator(selector).boundingBox();
    if (found === null) throw new Error(`${selector} is not there`);
    return found;
  };
  const drag = async (page: Page, selector: string, right: number, down: number): Promise<void> => {
    const { x, y, width, height } = await box(page, selector);
    await page.mouse.move(x + width / 2, y + height / 2);
    await page.mouse.down();
    await page.mouse.move(x + width / 2 + right, y + height / 2 + down, { steps: 4 });
    await page.mouse.up();
  };

  test('a corner sizes it and leaves the corner across where it is; all of one drag is one step back', async () => {
    const page = await open();
    const before = await box(page, '.crop-frame');
    await drag(page, '.crop-corner[data-x="1"][data-y="1"]', -before.width / 2, -before.height / 2);
    await expect.poll(() => figure(page, 'Size')).toBeCloseTo(0.5, 1);
    const after = await box(page, '.crop-frame');
    expect(Math.abs(after.x - before.x)).toBeLessThanOrEqual(2);
    expect(Math.abs(after.y - before.y)).toBeLessThanOrEqual(2);
    expect(Math.abs(after.width - after.height)).toBeLessThanOrEqual(2);
    await drag(page, '.crop-hold', before.width / 4, 0);
    await expect
      .poll(async () => Math.round((await box(page, '.crop-frame')).x - after.x))
      .toBeGreaterThan(20);
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(async () => Math.abs((await box(page, '.crop-frame')).x - after.x)).toBeLessThan(1);
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => figure(page, 'Size')).toBe(1);
    expect(await axeFindings(page)).toEqual([]);
    await page.context().close();
  });

  test('keys move it, size it and leave it; then the picture is cut', async () => {
    const page = await open();
    const hold = page.locator('.crop-hold');
    await expect.poll(() => hold.evaluate((element) => element === document.activeElement)).toBe(true);
    for (let time = 0; time < 8; time++) await page.keyboard.press('-');
    await expect.poll(() => figure(page, 'Size')).toBeCloseTo(1.05 ** -8, 2);
    const { x, y } = await box(page, '.crop-frame');
    await page.keyboard.press('ArrowRight');
    await expect.poll(async () => (await box(page, '.crop-frame')).x).toBeGreaterThan(x);
    await page.keyboard.press('ArrowUp');
    await expect.poll(async () => (await box(page, '.crop-frame')).y).toBeLessThan(y);
    await page.keyboard.press('Enter');
    await hold.waitFor({ state: 'detached' });
    const canvas = page.getByTestId('look-picture');
    await expect
      .poll(() =>
        canvas.evaluate((element) => {
          const { width, height } = element as HTMLCanvasElement;
          return Math.abs(width - height);
        }),
      )
      .toBeLessThanOrEqual(1);
    await page.context().close();
  });
});
