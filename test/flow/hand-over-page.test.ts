import { mkdir, mkdtemp, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { axeFindings } from '../render/page/axe.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** Deliveries, a card and a reading of everything on the page, over the real station. */
describe.skipIf(!hasBrowser || !hasProgram('curl'))('the Hand-over page over the real station', () => {
  let home: string;
  let card: string;
  let station: RunningStation;
  let browser: Browser;
  let page: Page;
  const complaints: string[] = [];

  beforeAll(async () => {
    home = await newHome();
    card = await newHome();
    await mkdir(join(card, 'DCIM/100QMST'), { recursive: true });
    [station, browser] = await Promise.all([startStation(home, ['--card', card]), launchBrowser()]);
    page = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
    page.on('pageerror', (error) => complaints.push(error.message));
    await page.goto(`${station.ready.web}/#/hand-over`);
  });

  afterAll(async () => {
    await browser.close();
    await station.stop();
    await removeHome(home);
    await removeHome(card);
  });

  function send(method: string, path: string, body?: unknown): Promise<Response> {
    return fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      headers: body === undefined ? {} : { 'content-type': 'application/json' },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
  }

  async function picture(counter: number): Promise<Uint8Array> {
    const background = { r: 100 + counter, g: 100, b: 100 };
    return sharp({ create: { width: 64, height: 48, channels: 3, background } })
      .jpeg()
      .toBuffer();
  }

  async function upload(counter: number): Promise<void> {
    const name = `QMST000${counter}.JPG`;
    const file = join(home, name);
    await writeFile(file, await picture(counter));
    expect((await curlUpload(station, file, `/${name}`)).code).toBe(0);
  }

  const part = (name: string) => page.locator(`[data-part="${name}"]`);

  test('with nothing yet, each part says what to do first, and no rule of accessibility is broken', async () => {
    await page.getByText('Nothing was delivered yet.').waitFor();
    await page.getByText('There is no job yet.').waitFor();
    await part('copies').getByText('There is no second place.').waitFor();
    await part('card').getByText(card, { exact: true }).waitFor();
    expect(await axeFindings(page)).toEqual([]);
  });

  test('what would be delivered is said before: how many frames, and that they are too small', async () => {
    await send('POST', '/jobs', { code: 'QM-26', title: 'Autumn catalogue', open: true });
    for (const counter of [1, 2]) await upload(counter);
    await eventually('both are rendered', async () => {
      const frames = await station.frames();
      return frames.length === 2 && frames.every(({ picture: shown }) => shown.state === 'rendered');
    });
    await part('begin').getByText('No frame of the job has a mark').waitFor();
    expect(
      await part('begin')
        .getByRole('button', { name: /^Deliver/ })
        .isDisabled(),
    ).toBe(true);
    for (const { id } of await station.frames()) await send('PATCH', `/frames/${id}`, { mark: 'hero' });
    await part('begin').getByText('2 frames would be delivered. Of 2 something is to be said').waitFor();
    // 64 x 48 px are asked to fill 2000 x 2000: 64 / 2000 = 3 % (our own arithmetic).
    await part('begin').getByText('the picture has 3 % of the pixels').first().waitFor();
    await part('begin').getByText('Every pixel in 16 bits').click();
    await part('begin').getByText('Nothing speaks against it.').waitFor();
  });

  test('a delivery is begun, made, and its slip has every value, its files and its folder', async () => {
    await part('begin').getByRole('button', { name: 'Deliver 2 frames' }).click();
    const slip = page.locator('.hand-slip');
    await slip.getByText('done', { exact: true }).waitFor();
    await slip.getByText('2 of 2 files').waitFor();
    await slip.locator('summary').click();
    await slip.getByText('Adobe RGB (1998), with its ICC profile, version 2').waitFor();
    await slip.getByText('TIFF, 16 bit, compressed (deflate)').waitFor();
    await slip.getByText('Nothing has to be said of any file.').waitFor();
    const folder = (await slip.locator('.hand-facts dd').first().textContent()) ?? '';
    expect((await readdir(folder)).filter((name) => name.endsWith('.tif'))).toHaveLength(2);
    expect(await axeFindings(page)).toEqual([]);
  });

  test('a delivery that is sent to a destination says how far it is there', async () => {
    const folder = await mkdtemp(join(home, '../setside-client-'));
    const place = { kind: 'folder', path: folder };
    expect((await send('PUT', '/destinations/client', { place })).status).toBe(201);
    await page.reload();
    await part('begin').getByLabel('Send to').selectOption('client');
    await part('begin').getByRole('button', { name: 'Deliver 2 frames' }).click();
    const slip = page.locator('.hand-slip').first();
    await slip.getByText('2 of 2 files there, and compared').waitFor();
    await slip.getByText('done', { exact: true }).waitFor();
    const sent = await readdir(folder, { recursive: true });
    expect(sent.filter((name) => name.endsWith('.jpg'))).toHaveLength(2);
    await removeHome(folder);
  });

  test('a card with a frame that never came is to be kept; it is taken in, and the card is as it was', async () => {
    await writeFile(join(card, 'DCIM/100QMST/QMST0002.JPG'), await picture(2));
    await writeFile(join(card, 'DCIM/100QMST/QMST0003.JPG'), await picture(3));
    await part('card')
      .getByRole('button', { name: /^Check it/ })
      .click();
    await part('card').getByText('Keep the card').waitFor();
    await page.locator('.hand-next').getByText('1 file of the card is not here.').waitFor();
    await part('card').getByRole('button', { name: 'Take in 1 file' }).click();
    await part('card').getByText('Taken in.', { exact: false }).waitFor();
    await expect
      .poll(async () => (await station.frames()).map(({ name }) => name).sort())
      .toContain('QMST0003.JPG');
    expect(await readFile(join(card, 'DCIM/100QMST/QMST0003.JPG'))).toEqual(Buffer.from(await picture(3)));
    await part('card')
      .getByRole('button', { name: /^Check again/ })
      .click();
    await part('card').getByText('0 not here').waitFor();
    // One disk only: nothing is here twice.
    expect(await part('card').getByText('May be wiped').count()).toBe(0);
  });

  test('everything is read again when asked, and the page tells of an original that has changed', async () => {
    const [original = ''] = (await readdir(join(home, 'jobs/QM-26/originals'), { recursive: true }))
      .filter((name) => name.endsWith('QMST0001.JPG'))
      .map((name) => join(home, 'jobs/QM-26/originals', name));
    await writeFile(original, 'x');
    await part('copies').getByRole('button', { name: 'Read all now' }).click();
    await part('copies').getByText('1 original was not as received.').waitFor();
    await page.locator('.hand-next').getByText('1 original is not as received.').waitFor();
    // As `setside verify` leaves it: the frame says it too.
    await eventually('the frame says so', async () =>
      (await station.frames()).some(
        ({ counter, verdicts }) =>
          counter === 1 && verdicts.arrived.findings.some(({ code }) => code.includes('original')),
      ),
    );
  });

  test('a step leads to its part, and on a phone nothing is wider than the screen', async () => {
    await page
      .locator('.hand-next')
      .getByRole('button', { name: /original is not as received/ })
      .press('Enter');
    await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('hand-copies');
    await page.setViewportSize({ width: 390, height: 844 });
    const widths = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
    expect(widths[0]).toBeLessThanOrEqual(widths[1] ?? 0);
    await page.goto(`${station.ready.web}/#/hand-over/QM-26`);
    await page.getByRole('heading', { name: 'Hand-over of QM-26' }).waitFor();
    await page.locator('.hand-slip').first().waitFor();
    expect(await axeFindings(page)).toEqual([]);
    expect(complaints).toEqual([]);
  });
});
