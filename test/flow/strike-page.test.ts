import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Strike, strike } from '../../src/contract/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { axeFindings } from '../render/page/axe.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** A sheet mended line by line, printed and signed on the page, over the real station. */
describe.skipIf(!hasBrowser || !hasProgram('curl'))('the strike sheet over the real station', () => {
  let home: string;
  let station: RunningStation;
  let browser: Browser;
  let page: Page;
  const complaints: string[] = [];

  beforeAll(async () => {
    home = await newHome();
    [station, browser] = await Promise.all([startStation(home), launchBrowser()]);
    await send('POST', '/jobs', {
      code: 'QM-26',
      title: 'Autumn catalogue',
      client: 'Quillmere',
      open: true,
    });
    await send('POST', '/jobs/QM-26/shots', { name: 'Mug', requires: [] });
    await upload(1);
    await upload(3);
    page = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
    page.on('pageerror', (error) => complaints.push(error.message));
    await page.goto(`${station.ready.web}/#/strike`);
  });

  afterAll(async () => {
    await browser.close();
    await station.stop();
    await removeHome(home);
  });

  function send(method: string, path: string, body?: unknown): Promise<Response> {
    return fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      headers: body === undefined ? {} : { 'content-type': 'application/json' },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
  }

  async function upload(counter: number): Promise<void> {
    const name = `QMST000${counter}.JPG`;
    const file = join(home, name);
    const background = { r: 100 + counter, g: 100, b: 100 };
    const picture = sharp({ create: { width: 64, height: 48, channels: 3, background } });
    await writeFile(file, await picture.jpeg().toBuffer());
    expect((await curlUpload(station, file, `/${name}`)).code).toBe(0);
  }

  const check = async (): Promise<Strike> => strike.parse(await (await send('GET', '/strike')).json());
  const answer = (text: string) => page.locator('.strike-answer').getByText(text);
  /** A line of the sheet by what it says. */
  const line = (text: string) => page.locator('.strike-lines li', { hasText: text });

  async function accept(text: string, reason: string): Promise<void> {
    const open = line(text);
    await open.getByText('Accept it', { exact: false }).first().click();
    await open.getByLabel('Name').fill('Ada');
    await open.getByLabel('Reason').fill(reason);
    await open.getByRole('button', { name: 'Accept it' }).click();
    await page.locator('.strike-by', { hasText: `Ada: ${reason}` }).waitFor();
  }

  test('what is missing stands there worst first, each line with its way, and no rule of accessibility is broken', async () => {
    await answer('Leave the set standing: 4 lines are open.').waitFor();
    expect(await page.locator('.strike-lines h2').allTextContents()).toEqual([
      'Costs a reshoot',
      'May still lie on a card: keep the card',
      'In one place only',
    ]);
    expect(await line('has no hero').getByRole('link').getAttribute('href')).toBe('#/sheet/QM-26');
    expect(await page.getByText('Whether a card may be wiped it cannot say').count()).toBe(1);
    expect(await axeFindings(page)).toEqual([]);
  });

  test('a mark that is given elsewhere changes the sheet by itself', async () => {
    const hero = (await station.frames()).find(({ counter }) => counter === 3)?.id ?? 'none';
    await send('PATCH', `/frames/${hero}`, { mark: 'hero' });
    await line('Arrived is in doubt').waitFor();
    await line('has no hero').waitFor({ state: 'detached' });
    await line('Arrived is in doubt').getByRole('link', { name: 'Show the frame' }).click();
    await page.getByText('QMST0003', { exact: false }).first().waitFor();
    await page.goBack();
    await answer('Leave the set standing').waitFor();
  });

  test('lines are accepted by name and with a reason, and the camera’s last number is said', async () => {
    await accept('Arrived is in doubt', 'one disk today');
    await accept('number 0002 never came', 'shutter pressed in the bag');
    const number = page.getByLabel('Last number on the camera');
    await number.fill('0005');
    await page.getByRole('button', { name: 'Say it' }).click();
    await line('numbers 0004 to 0005 (2)').waitFor();
    await number.fill('3');
    await page.getByRole('button', { name: 'Say it' }).click();
    await line('numbers 0004 to 0005 (2)').waitFor({ state: 'detached' });
    expect((await check()).cameras[0]?.said).toMatchObject({ counter: 3 });
  });

  test('with nothing open it is signed, and a later change reopens it', async () => {
    expect(await page.getByRole('button', { name: 'Sign', exact: true }).count()).toBe(0);
    await accept('on one disk only', 'the second comes tonight');
    await answer('Everything that could be checked is in order.').waitFor();
    await page.locator('.strike-sign').getByLabel('Name').fill('Ada');
    await page.getByRole('button', { name: 'Sign', exact: true }).click();
    await page.getByText(/^Signed by Ada, /).waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await upload(4);
    await page.getByText('something has changed since, so it is open again').waitFor();
    expect((await check()).signed).toMatchObject({ name: 'Ada', stands: false });
  });

  test('on a phone the sheet is no wider than the screen, and paper has lines to sign on and no buttons', async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    const widths = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
    expect(widths[0]).toBeLessThanOrEqual(widths[1] ?? 0);
    await page.emulateMedia({ media: 'print' });
    expect(await page.getByText('Date, time').isVisible()).toBe(true);
    for (const button of await page.getByRole('button').all()) expect(await button.isVisible()).toBe(false);
    await page.emulateMedia({ media: 'screen' });
  });

  test('a job that is not there is said, and the page never complained', async () => {
    await page.goto(`${station.ready.web}/#/strike/NONE`);
    await page.getByRole('alert').getByText('There is no such job').waitFor();
    expect(complaints).toEqual([]);
  });
});
