import { spawnSync } from 'node:child_process';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { delivery, job as jobSchema } from '../../src/contract/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { stillLifeJpeg } from '../render/page/still-life.ts';
import { curlUpload, hasProgram, type Ran, runProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');
const needed = hasBrowser && hasProgram('curl') && hasProgram('pdftotext');

/** The order that somebody gave the chosen frames by hand is the one on paper and in what is handed over. */
describe.skipIf(!needed)('the order of chosen frames, from the hand to the paper and the files', () => {
  let home: string;
  let station: RunningStation;
  let browser: Browser;
  let page: Page;

  beforeAll(async () => {
    home = await newHome();
    [station, browser] = await Promise.all([startStation(home), launchBrowser()]);
    await call('POST', '/jobs', { code: 'QM-26', open: true });
    await call('PATCH', '/jobs/QM-26', { naming: '{job}_{number}_{counter}' });
    await call('POST', '/jobs/QM-26/shots', { name: 'Mug' });
    await call('PATCH', '/jobs/QM-26', { currentShot: 'mug' });
    for (const counter of [1, 2, 3, 4]) {
      const file = join(home, `QMST000${counter}.JPG`);
      await writeFile(file, await stillLifeJpeg({ place: counter / 5, hue: 30, light: 0.9 }, 600, 400));
      expect((await curlUpload(station, file, `/QMST000${counter}.JPG`)).code).toBe(0);
    }
    const frames = await eventually('four pictures', async () => {
      const known = await station.frames();
      return known.length === 4 && known.every(({ picture }) => picture.state === 'rendered') && known;
    });
    for (const { id, counter } of frames)
      await call('PATCH', `/frames/${id}`, { mark: counter === 2 ? 'select' : 'hero' });
    page = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
    await page.goto(`${station.ready.web}/#/sheet`);
  }, 180_000);

  afterAll(async () => {
    await browser.close();
    await station.stop();
    await removeHome(home);
  });

  async function call(method: string, path: string, body: object): Promise<void> {
    const answer = await fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${await answer.text()}`);
  }

  const setside = (...args: string[]): Promise<Ran> =>
    runProgram(process.execPath, [binary, ...args, '--station', station.ready.web]);
  const counters = async (): Promise<(number | null)[]> => {
    const job = jobSchema.parse(await (await fetch(`${station.ready.web}/api/v1/jobs/QM-26`)).json());
    const known = new Map((await station.frames()).map(({ id, counter }) => [id, counter]));
    return (job.shots[0]?.order ?? []).map((id) => known.get(id) ?? null);
  };

  test('the last hero is dragged before the first', async () => {
    const heroes = page.locator('.sheet-cell[data-part="hero"]');
    await expect
      .poll(() => heroes.locator('.sheet-name').allTextContents())
      .toEqual(['0001', '0003', '0004']);
    await heroes.nth(2).dragTo(heroes.nth(0));
    await expect.poll(counters).toEqual([4, 1, 3, 2]);
    await expect
      .poll(() => heroes.locator('.sheet-name').allTextContents())
      .toEqual(['0004', '0001', '0003']);
  });

  test('so they lie on the contact sheet, read by another program', async () => {
    const file = join(home, 'sheet.pdf');
    const ran = await setside('sheet', 'QM-26', '--to', file);
    expect(ran.code, ran.stderr).toBe(0);
    const { stdout } = spawnSync('pdftotext', [file, '-'], { encoding: 'utf8' });
    expect(stdout.match(/QMST000\d/g)).toEqual(['QMST0004', 'QMST0001', 'QMST0003', 'QMST0002']);
  });

  test('and so the files of a delivery are numbered', async () => {
    const ran = await setside('deliver', 'QM-26', '--spec', 'web-shop', '--json');
    expect(ran.code, ran.stderr).toBe(0);
    const { files } = delivery.parse(JSON.parse(ran.stdout));
    expect(files.map(({ file }) => file)).toEqual([
      'QM-26_0001_0004.jpg',
      'QM-26_0002_0001.jpg',
      'QM-26_0003_0003.jpg',
    ]);
  });
});
