import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { deliveryPlan } from '../../src/contract/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { axeFindings } from '../render/page/axe.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** Deliveries, a card and a reading of everything on the page, over the real station. */
describe.skipIf(!hasBrowser || !hasProgram('curl'))('the Hand-over page over the real station', () => {
  let home: string;
  let card: string;
  /** A disk of the client. */
  let client: string;
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
    const refused: string[] = [];
    page.on('response', (answer) => {
      if (answer.status() === 409) refused.push(answer.url());
    });
    await send('POST', '/jobs', { code: 'QM-26', title: 'Autumn catalogue', open: true });
    for (const counter of [1, 2]) await upload(counter);
    await eventually('both are rendered', async () => {
      const frames = await station.frames();
      return frames.length === 2 && frames.every(({ picture: shown }) => shown.state === 'rendered');
    });
    await part('begin').getByText('No frame of the job has a mark').waitFor();
    // What the page knows to be refused it does not ask.
    expect(refused).toEqual([]);
    expect(
      await part('begin')
        .getByRole('button', { name: /^Deliver/ })
        .isDisabled(),
    ).toBe(true);
    for (const { id } of await station.frames()) await send('PATCH', `/frames/${id}`, { mark: 'hero' });
    await part('begin').getByText('2 frames would be delivered. Of 2 something is to be said').waitFor();
    // 64 x 48 px are asked to fill 2000 x 2000: 64 / 2000 = 3 % (our own arithmetic).
    await part('begin').getByText('it has 3 % of the pixels').first().waitFor();
    await part('begin').getByText('Every pixel in 16 bits').click();
    await part('begin').getByText('Nothing speaks against it.').waitFor();
  });

  test('a delivery is begun, made, and its slip has every value, its files and its folder', async () => {
    await part('begin').getByRole('button', { name: 'Deliver 2 frames' }).click();
    const slip = page.locator('.hand-slip');
    await slip.getByText('done', { exact: true }).waitFor();
    await slip.getByText('2 of 2 files').waitFor();
    // A bar is for what goes on.
    expect(await slip.locator('progress').count()).toBe(0);
    await slip.locator('summary').click();
    await slip.getByText('Adobe RGB (1998), with its ICC profile, version 2').waitFor();
    await slip.getByText('TIFF, 16 bit, compressed (deflate)').waitFor();
    await slip.getByText('Nothing has to be said of any file.').waitFor();
    const folder = (await slip.locator('.hand-facts dd').first().textContent()) ?? '';
    expect((await readdir(folder)).filter((name) => name.endsWith('.tif'))).toHaveLength(2);
    expect(await axeFindings(page)).toEqual([]);
  });

  test('a destination is added and tested on the page; what cannot be right is named, and no rule of accessibility is broken', async () => {
    client = await mkdtemp(join(home, '../setside-client-'));
    const destinations = part('destinations');
    await destinations.getByText('No destination is known yet.').waitFor();
    await destinations.getByRole('button', { name: 'Add a destination' }).press('Enter');
    await destinations.getByLabel('Name', { exact: true }).fill('Client');
    await destinations.getByRole('button', { name: 'Add it' }).press('Enter');
    await destinations.getByText('Look at “Name” again').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await destinations.getByLabel('Name', { exact: true }).fill('client');
    await destinations.getByLabel('Folder', { exact: true }).fill(client);
    await destinations.getByLabel('Folder', { exact: true }).press('Enter');
    await destinations.getByText(`folder ${client}`).waitFor();
    await destinations.getByRole('button', { name: 'Test it' }).press('Enter');
    await destinations.getByText('The small file lay there whole').waitFor();
    expect(await readdir(client)).toEqual([]);
    expect(await axeFindings(page)).toEqual([]);
  });

  test('a delivery that is sent there says how far it is; what lies in the way is named, and sent once that is gone', async () => {
    const there = join(client, 'QM-26/Web shop, square');
    await mkdir(there, { recursive: true });
    const plan = await send('POST', '/deliveries/plan', { job: 'QM-26', specification: 'web-shop' });
    const { files } = deliveryPlan.parse(await plan.json());
    const [name = ''] = files.map(({ file }) => file);
    await writeFile(join(there, name), 'theirs');
    await part('begin')
      .getByRole('radio', { name: /Web shop/ })
      .check();
    await part('begin').getByLabel('Send to').selectOption('client');
    await part('begin').getByRole('button', { name: 'Deliver 2 frames' }).click();
    const slip = page.locator('.hand-slip').first();
    await slip.getByText('done, not all sent').waitFor();
    await slip.getByText('1 file was not sent').waitFor();
    await slip.locator('summary').click();
    await slip.getByRole('heading', { name: 'Not sent, and why' }).waitFor();
    await slip.getByText(`Another file called ${name} lies there`).first().waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await rm(join(there, name));
    await slip.getByRole('button', { name: 'Send again what was not sent' }).press('Enter');
    await slip.getByText('2 of 2 files there, and compared').waitFor();
    await slip.getByText('done', { exact: true }).waitFor();
    const lies = await readdir(there);
    expect(lies.filter((each) => each.endsWith('.jpg'))).toHaveLength(2);
    // The list that went there first is not overwritten.
    expect(await readFile(join(there, 'manifest.csv'), 'utf8')).toContain('It was left alone');
    expect(await readFile(join(there, 'manifest-2.csv'), 'utf8')).not.toContain('It was left alone');
  });

  test('a server’s key is trusted after it was compared, and not before', async () => {
    // The station's own door for cameras answers as any SSH server does.
    const place = { kind: 'sftp', host: '127.0.0.1', port: station.ready.sftp, user: 'studio', path: '.' };
    const put = await send('PUT', '/destinations/printer', {
      place: { ...place, logInBy: 'password' },
      secret: 'not to be seen',
    });
    expect(put.status).toBe(201);
    await page.reload();
    const row = part('destinations').locator('li').filter({ hasText: 'printer' });
    await row.getByText('host key not compared yet').waitFor();
    await row.getByRole('button', { name: 'Test it' }).press('Enter');
    await row.getByText('Nobody has compared').waitFor();
    const shown = (await row.locator('.hand-print').first().textContent()) ?? '';
    expect(shown).toMatch(/^SHA256:[A-Za-z0-9+/]{43}$/);
    const trust = row.getByRole('button', { name: 'Trust this key' });
    expect(await trust.isDisabled()).toBe(true);
    await row.getByRole('textbox').fill(`SHA256:${'a'.repeat(43)}`);
    await row.getByText('It is not the same.').waitFor();
    expect(await trust.isDisabled()).toBe(true);
    expect(await axeFindings(page)).toEqual([]);
    await row.getByRole('textbox').fill(`256 ${shown} root@files (ED25519)`);
    await trust.press('Enter');
    // The same words stand there before: it is their end that says it is trusted.
    await expect.poll(() => row.getByText('host key not compared yet').count()).toBe(0);
    await row.getByText('Host key').waitFor();
    await row.getByRole('button', { name: 'Test it' }).press('Enter');
    await row.getByText('does not take the log-in').waitFor();
    expect(await page.content()).not.toContain('not to be seen');
    expect((await send('DELETE', '/destinations/printer')).status).toBe(204);
    await page.reload();
  });

  test('a destination is forgotten after one was asked twice, and is offered no longer', async () => {
    const destinations = part('destinations');
    await destinations.getByRole('button', { name: 'Forget it' }).press('Enter');
    await destinations.getByText('What was sent there stays there.').waitFor();
    await destinations.getByRole('button', { name: 'Forget it', exact: true }).press('Enter');
    await destinations.getByText('No destination is known yet.').waitFor();
    await expect.poll(() => part('begin').getByLabel('Send to').count()).toBe(0);
    await removeHome(client);
  });

  test('a card with a frame that never came is to be kept; it is taken in, and the card is as it was', async () => {
    await writeFile(join(card, 'DCIM/100QMST/QMST0002.JPG'), await picture(2));
    await writeFile(join(card, 'DCIM/100QMST/QMST0003.JPG'), await picture(3));
    await part('card')
      .getByRole('button', { name: /^Check it/ })
      .press('Enter');
    await part('card').getByText('Keep the card').waitFor();
    // Who works by keyboard goes on from the button, not from the top of the page.
    expect(await page.evaluate(() => document.activeElement?.textContent)).toMatch(/^Check/);
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
    // This station has no second place: it is said so, and nothing is moved.
    await part('copies').getByRole('button', { name: 'Put back from a second place' }).click();
    await part('copies')
      .getByText(/No second place that could be read holds/)
      .waitFor();
    expect(await readFile(original, 'utf8')).toBe('x');
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
