import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { job as jobSchema } from '../../src/contract/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { stillLifeJpeg } from '../render/page/still-life.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** What somebody does on the Sheet faster than the station answers, or while a call of another kind is under way. */
describe.skipIf(!hasBrowser || !hasProgram('curl'))('quick hands on the Sheet page', () => {
  let home: string;
  let station: RunningStation;
  let browser: Browser;
  let page: Page;
  const ids: string[] = [];

  beforeAll(async () => {
    home = await newHome();
    [station, browser] = await Promise.all([startStation(home), launchBrowser()]);
    await call('POST', '/api/v1/jobs', { code: 'QM-26', open: true });
    for (const name of ['Mug', 'Jug']) await call('POST', '/api/v1/jobs/QM-26/shots', { name });
    for (const counter of ['0001', '0002', '0003']) {
      const file = join(home, `QMST${counter}.JPG`);
      await writeFile(file, await stillLifeJpeg({ place: 0.5, hue: 30, light: 0.9 }, 600, 400));
      expect((await curlUpload(station, file, `/QMST${counter}.JPG`)).code).toBe(0);
      const frame = await eventually(`${counter} is judged`, async () =>
        (await station.frames()).find(({ name, times }) => name.includes(counter) && times.judged !== null),
      );
      ids.push(frame.id);
    }
    await call('POST', '/api/v1/marks', { frames: ids, mark: 'select' });
    page = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
    await page.goto(`${station.ready.web}/#/sheet`);
    await page.locator('.sheet-cell[data-part="select"]').nth(2).waitFor();
  });

  afterAll(async () => {
    await browser.close();
    await station.stop();
    await removeHome(home);
  });

  async function call(method: string, path: string, body: object): Promise<void> {
    const answer = await fetch(`${station.ready.web}${path}`, {
      method,
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${await answer.text()}`);
  }

  async function kept(): Promise<(string | undefined)[]> {
    const answer = jobSchema.parse(await (await fetch(`${station.ready.web}/api/v1/jobs/QM-26`)).json());
    const order = answer.shots.find(({ id }) => id === 'mug')?.order ?? [];
    return order.map((id) => ['0001', '0002', '0003'][ids.indexOf(id)]);
  }

  const selects = () => page.locator('.sheet-cell[data-part="select"] .sheet-name').allTextContents();
  const cell = (counter: string) => page.locator('.sheet-cell[data-part="frame"]', { hasText: counter });
  const said = () => page.locator('.sheet-said');

  test('two steps in the order, the second before the first is answered, are both taken', async () => {
    let goOn = (): void => {};
    const held = new Promise<void>((done) => {
      goOn = done;
    });
    let calls = 0;
    await page.route('**/shots/mug', async (route) => {
      calls += 1;
      if (calls === 1) await held;
      await route.continue();
    });
    await cell('0001').click();
    await page.keyboard.press('Alt+ArrowRight');
    await expect.poll(() => calls).toBe(1);
    await page.keyboard.press('Alt+ArrowRight');
    goOn();
    await expect.poll(kept).toEqual(['0002', '0003', '0001']);
    await expect.poll(selects).toEqual(['0002', '0003', '0001']);
    await page.unroute('**/shots/mug');
    // Both are answered by now, for one goes out behind the other: nothing is left to be refused.
    expect(await said().textContent()).toBe('3 frames');
  });

  test('a mark that was refused is told until a mark is taken, whatever else is', async () => {
    await page.route('**/api/v1/marks', (route) => route.fulfill({ status: 500, body: '' }), { times: 1 });
    await cell('0001').click();
    await page.keyboard.press('h');
    await said()
      .getByText(/^Mark: /)
      .waitFor();
    await page.getByLabel('To a shot').selectOption({ label: 'Jug' });
    const jug = page.getByRole('region', { name: 'Jug', exact: true });
    await expect.poll(() => jug.locator('[data-part="frame"]').count()).toBe(1);
    // The move's answer may come behind its event: a second call that is answered is behind it for certain.
    const answered = page.waitForResponse('**/api/v1/client');
    await page.keyboard.press('c');
    await answered;
    await said()
      .getByText(/^Mark: /)
      .waitFor();
    await page.keyboard.press('h');
    await said().getByText('3 frames').waitFor();
  });

  test('from Look closely to the Set page, one step back leads to the sheet', async () => {
    await cell('0002').dblclick();
    const looked = page.getByRole('dialog', { name: 'Look closely' });
    await looked.getByRole('button', { name: 'Show on Set' }).click();
    await expect.poll(() => new URL(page.url()).hash).toBe('#/');
    await page.goBack();
    await expect.poll(() => new URL(page.url()).hash).toBe('#/sheet');
    await cell('0002').waitFor();
    expect(await page.evaluate(() => history.state)).toBeNull();
  });

  test('a picture that does not come is told on the print, and keeps nobody from printing', async () => {
    await page.route('**/picture?*', (route) =>
      route
        .request()
        .url()
        .includes(ids[1] ?? '')
        ? route.fulfill({ status: 503 })
        : route.continue(),
    );
    await page.getByRole('button', { name: 'Print', exact: true }).click();
    await page.getByText('2 of 3 pictures are here. One did not come').waitFor();
    await expect.poll(() => page.getByRole('button', { name: 'Print it' }).isEnabled()).toBe(true);
    expect(await page.locator('.contact-frame').count()).toBe(3);
  });
});
