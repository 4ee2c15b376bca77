import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Job, Look } from '../../src/contract/index.ts';
import { defaultLook } from '../../src/look/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { axeFindings } from '../render/page/axe.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { madeRaw } from './made-raw.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** Looks that are kept, chosen on the Job page and named on the frame's card. */
describe.skipIf(!hasBrowser || !hasProgram('curl'))('looks on the Job page and on the frame’s card', () => {
  let home: string;
  let station: RunningStation;
  let browser: Browser;
  let page: Page;
  let first: Look;

  beforeAll(async () => {
    home = await newHome();
    [station, browser] = await Promise.all([startStation(home), launchBrowser()]);
    await call('POST', '/jobs', { code: 'QM-26', open: true });
    await call('POST', '/jobs/QM-26/shots', { name: 'Mug', look: 'Silver' });
    first = await save('Evening', 0.5);
    const file = join(home, 'QMST0001.DNG');
    await writeFile(file, madeRaw({ sigmaPx: 1, ev: -2 }));
    expect((await curlUpload(station, file, '/QMST0001.DNG')).code).toBe(0);
    const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
    page = await context.newPage();
    await page.goto(`${station.ready.web}/#/job/QM-26`);
  }, 120_000);

  afterAll(async () => {
    await browser.close();
    await station.stop();
    await removeHome(home);
  });

  async function call<Answer>(method: string, path: string, body?: unknown): Promise<Answer> {
    const answer = await fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      ...(method === 'GET'
        ? {}
        : { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body ?? {}) }),
    });
    if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
    return (await answer.json()) as Answer;
  }

  const save = (title: string, exposureEv: number): Promise<Look> =>
    call('POST', '/looks', { version: 2, title, exposureEv, curve: defaultLook.curve });
  const jobNow = (): Promise<Job> => call('GET', '/jobs/QM-26');
  const chosenIn = (label: string) => page.getByLabel(label, { exact: true }).locator('option:checked');

  test('a wish is shown as one, among the looks there are, and said to look after', async () => {
    await page.getByText('No look of the name “Silver” is kept').waitFor();
    await page.getByRole('button', { name: 'Edit' }).click();
    // The shot's stands first, the job's at the end of the page.
    const [shot, job] = [chosenIn('Look').first(), chosenIn('Look').last()];
    expect([await shot.textContent(), await job.textContent()]).toEqual([
      'Silver (not kept yet)',
      'the plain look',
    ]);
    expect(await axeFindings(page)).toEqual([]);
  });

  test('a version is chosen by its name and number, and one that is saved meanwhile can be chosen at once', async () => {
    const ofShot = page.getByLabel('Look', { exact: true }).first();
    await ofShot.selectOption({ label: 'Evening 1' });
    await eventually('it is chosen', async () => (await jobNow()).shots[0]?.lookId === first.id);
    const second = await save('Evening', 1);
    const ofJob = page.getByLabel('Look', { exact: true }).last();
    await ofJob.locator('option', { hasText: 'Evening 2' }).waitFor({ state: 'attached' });
    await ofJob.selectOption({ label: 'Evening 2' });
    await eventually('the job has the newer one', async () => (await jobNow()).lookId === second.id);
    expect((await jobNow()).shots[0]?.lookId).toBe(first.id);
    expect(await chosenIn('Look').first().textContent()).toBe('Evening 1');
  });

  test('a name that is not kept yet can still be asked for', async () => {
    const ofShot = page.getByLabel('Look', { exact: true }).first();
    await ofShot.selectOption({ label: 'a look that is not kept yet …' });
    await page.getByLabel('Its name').fill('Copper');
    await page.getByLabel('Its name').press('Enter');
    await eventually('it is a wish', async () => {
      const [shot] = (await jobNow()).shots;
      return shot?.look === 'Copper' && shot.lookId === null;
    });
    await page.getByText('No look of the name “Copper” is kept').waitFor();
    await save('copper', 0.2);
    // Met: the page hears of it by itself.
    await page.getByText('No look of the name “Copper” is kept').waitFor({ state: 'detached' });
    await eventually(
      'it is named',
      async () => (await chosenIn('Look').first().textContent()) === 'copper 1',
    );
  });

  test('the frame’s card names the look in force, and takes the frame’s own back', async () => {
    const [frame] = await station.frames();
    await call('PATCH', `/frames/${frame?.id}`, { look: first.id });
    await page.goto(`${station.ready.web}/#/set`);
    await page.keyboard.press('f');
    const card = page.getByRole('dialog');
    await card.getByText('Evening 1, chosen for this frame alone.').waitFor();
    await card.getByRole('button', { name: 'As its shot or job' }).click();
    await card.getByText('copper 1, its shot’s.').waitFor();
    expect(await axeFindings(page)).toEqual([]);
  });

  test('a key pressed on the way to another page is the new page’s, however late the browser tells of the address', async () => {
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'hidden' });
    await page.goto(`${station.ready.web}/#/job/QM-26`);
    await page.getByRole('button', { name: 'Edit' }).waitFor();
    // HTML, "update document for history step application": hashchange is queued as a task, and keys go before tasks.
    const told = await page.evaluate(async () => {
      let isTold = false;
      addEventListener('hashchange', () => {
        isTold = true;
      });
      location.hash = '#/set';
      for (let turn = 0; turn < 50; turn++) await Promise.resolve();
      dispatchEvent(new KeyboardEvent('keydown', { key: 'f' }));
      return isTold;
    });
    expect(told).toBe(false);
    await page.getByRole('dialog').getByText('copper 1, its shot’s.').waitFor();
  });
});
