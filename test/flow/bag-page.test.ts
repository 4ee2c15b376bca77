import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { axeFindings } from '../render/page/axe.ts';
import { newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** An archive package on the Hand-over page, over the real station. No frame comes, so that nothing has to make way. */
describe.skipIf(!hasBrowser)('packages on the Hand-over page', () => {
  let home: string;
  let beside: string;
  let archive: string;
  let station: RunningStation;
  let browser: Browser;
  let page: Page;
  const complaints: string[] = [];

  beforeAll(async () => {
    [home, beside] = await Promise.all([newHome(), newHome()]);
    archive = join(beside, 'archive');
    await mkdir(archive);
    [station, browser] = await Promise.all([startStation(home), launchBrowser()]);
    await send('POST', '/jobs', { code: 'QM-26', title: 'Autumn catalogue', open: true });
    page = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
    page.on('pageerror', (error) => complaints.push(error.message));
    await page.goto(`${station.ready.web}/#/hand-over/QM-26`);
  });

  afterAll(async () => {
    await browser.close();
    await station.stop();
    await removeHome(home);
    await removeHome(beside);
  });

  async function send(method: string, path: string, body: unknown): Promise<void> {
    const answer = await fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    expect(answer.ok, `${method} ${path}: ${answer.status}`).toBe(true);
  }

  const part = () => page.locator('[data-part="bag"]');

  test('without a disk for it, what to do is said; a destination that is added is one', async () => {
    await part().getByText('No disk for it is in.').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await send('PUT', '/destinations/archive', { place: { kind: 'folder', path: archive } });
    await part().getByRole('button', { name: 'Look again' }).press('Enter');
    await part()
      .getByText(`It will lie in ${join(archive, 'QM-26')}.`)
      .waitFor();
  });

  test('a job is packed, and the page says that it holds and which figure to keep elsewhere', async () => {
    await part().getByRole('button', { name: 'Pack it' }).press('Enter');
    await part().getByText('Complete and unaltered').waitFor();
    const info = await readFile(join(archive, 'QM-26/bag-info.txt'), 'utf8');
    const oxum = /^Payload-Oxum: (.+)$/m.exec(info)?.[1] ?? expect.unreachable();
    await part().getByText(oxum, { exact: true }).waitFor();
    await part().getByText('write this figure down elsewhere').waitFor();
    await part().getByText('a package', { exact: true }).waitFor();
    expect(await axeFindings(page)).toEqual([]);
  });

  test('it is not packed over itself: that is said with what to do', async () => {
    await part()
      .getByText(`It will lie in ${join(archive, 'QM-26-2')}.`)
      .waitFor();
    await part().getByLabel('Folder', { exact: true }).fill('QM-26');
    await part().getByRole('button', { name: 'Pack it' }).press('Enter');
    await part().getByText('holds something already').waitFor();
    await part().getByText('Name a folder that is new or empty.').waitFor();
    await page.locator('.hand-next').getByText('did not come to its end').waitFor();
  });

  test('one that was altered is found so, pointed at by its folder; a folder elsewhere is not looked into', async () => {
    await writeFile(join(archive, 'QM-26/data/journal-extract.jsonl'), 'other');
    const field = part().getByLabel('Another folder');
    await field.fill(home);
    await field.press('Enter');
    await part().getByText('No bag is made or checked in this folder from the page').waitFor();
    await field.fill(join(archive, 'QM-26'));
    await field.press('Enter');
    await part().getByText('Not complete, or altered', { exact: true }).waitFor();
    await part().getByText('Altered: the bytes of data/journal-extract.jsonl').first().waitFor();
    expect(await axeFindings(page)).toEqual([]);
  });

  test('it is there after the page is loaded again, and on a phone nothing is wider than the screen', async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await page.reload();
    await part().getByText('Not complete, or altered', { exact: true }).waitFor();
    await part().getByRole('button', { name: 'Pack it' }).waitFor();
    const widths = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
    expect(widths[0]).toBeLessThanOrEqual(widths[1] ?? 0);
    expect(complaints).toEqual([]);
  });
});
