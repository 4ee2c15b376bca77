import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { axeFindings } from '../render/page/axe.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** What a delivery keeps of the picture, over the Set page and the client's screen. */
describe.skipIf(!hasBrowser || !hasProgram('curl'))('the mask of a delivery', () => {
  let station: RunningStation;
  let browser: Browser;
  let page: Page;

  beforeAll(async () => {
    station = await startStation(await newHome());
    await call('POST', '/jobs', { code: 'QM-26', title: 'Autumn catalogue', open: true });
    await call('PATCH', '/jobs/QM-26', { deliveries: ['Banner with words'] });
    const file = join(station.home, 'QMST0001.JPG');
    const background = { r: 150, g: 140, b: 130 };
    await sharp({ create: { width: 600, height: 400, channels: 3, background } })
      .jpeg()
      .toFile(file);
    expect((await curlUpload(station, file, '/QMST0001.JPG')).code).toBe(0);
    browser = await launchBrowser();
    page = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
    await page.goto(station.ready.web);
    await page.locator('[data-testid="picture"][data-state="rendered"]').waitFor();
  }, 120_000);

  afterAll(async () => {
    await browser?.close();
    await station?.stop();
    await removeHome(station.home);
  });

  async function call(method: string, path: string, body: unknown): Promise<void> {
    const answer = await fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    expect(answer.ok, `${method} ${path}`).toBe(true);
  }

  const mask = () => page.locator('.delivery-mask svg');
  const slip = () => page.getByRole('group', { name: 'Delivery mask' });

  /** Of an element of the page; fails where it is not there. */
  async function boxOf(selector: string): Promise<Box> {
    const box = await page.locator(selector).boundingBox();
    if (box === null) throw new Error(`no ${selector}`);
    return box;
  }

  test('it is off until the key or the button is pressed, and says in words what it keeps', async () => {
    expect(await mask().count()).toBe(0);
    await page.keyboard.press('k');
    // 600 px at 16 : 9 are 337.5 of 400 px high: 84 % (our own arithmetic).
    await slip().getByText('Kept: the whole width, 8', { exact: false }).waitFor();
    expect(await mask().getAttribute('aria-label')).toMatch(
      /^Kept: the whole width, 8[45] % of the height\. Words on the left, 33 % of the width\.$/,
    );
    expect(await page.getByRole('button', { name: 'Delivery mask' }).getAttribute('aria-pressed')).toBe(
      'true',
    );
    expect(await axeFindings(page)).toEqual([]);
  });

  test('what is kept lies in the picture, and words on its left third; it goes along when one looks closely', async () => {
    const [picture, words] = [await boxOf('[data-testid="picture"]'), await boxOf('.mask-words')];
    expect(words.x).toBeCloseTo(picture.x, -1);
    expect(words.width / picture.width).toBeCloseTo(0.33, 1);
    expect(words.height / picture.height).toBeCloseTo(0.84, 1);
    await page.getByRole('button', { name: 'Closer' }).click();
    await expect.poll(async () => (await boxOf('.mask-words')).width).toBeGreaterThan(words.width * 1.2);
    await page.keyboard.press('Escape');
    await expect.poll(async () => (await boxOf('.mask-words')).width).toBeLessThan(words.width * 1.05);
  });

  test('a shape can be chosen instead, all of the picture too, and the button takes the mask away', async () => {
    await slip().getByLabel('Crop').selectOption('1 : 1');
    await slip().getByText('Kept: 67 % of the width, the whole height.').waitFor();
    await slip().getByLabel('Crop').selectOption('');
    await slip().getByText('All of the picture is kept.').waitFor();
    await page.getByRole('button', { name: 'Delivery mask' }).click();
    await slip().waitFor({ state: 'detached' });
  });

  test('the card of keys has it', async () => {
    await page.keyboard.press('?');
    await page.getByText('what the delivery keeps of the picture').waitFor();
    await page.keyboard.press('Escape');
  });

  test('the client’s screen shows the delivery’s own copy space once the station is told of the delivery', async () => {
    await page.goto(`${station.ready.web}/#/client`);
    await page.locator('[data-testid="picture"][data-state="rendered"]').waitFor();
    await call('PUT', '/client', { job: 'QM-26', crop: { delivery: 'banner' } });
    await mask().waitFor();
    expect(await mask().getAttribute('aria-label')).toContain('Words on the left');
  });

  test('on a device with a pocket’s link the client’s screen is the same: the picture in its middle, the mask upon it', async () => {
    await page.goto(`${station.ready.web}/pocket#/client`);
    await page.locator('[data-testid="picture"][data-state="rendered"]').waitFor();
    await mask().waitFor();
    const [picture, words] = [await boxOf('[data-testid="picture"]'), await boxOf('.mask-words')];
    expect(words.x).toBeCloseTo(picture.x, -1);
    expect(picture.x + picture.width / 2).toBeCloseTo(1280 / 2, -1);
    expect(words.y + words.height / 2).toBeCloseTo(picture.y + picture.height / 2, -1);
  });
});
