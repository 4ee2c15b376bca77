import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { endText, felt, heard, listen } from '../listen.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { madeRaw } from './made-raw.ts';
import { newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** Raws whose sharpness is known by formula, uploaded to the real station and told by its page. */
describe.skipIf(!hasBrowser || !hasProgram('curl'))('across the room', () => {
  let home: string;
  let station: RunningStation;
  let browser: Browser;
  let page: Page;

  beforeAll(async () => {
    home = await newHome();
    station = await startStation(home);
    browser = await launchBrowser();
    const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
    await context.addInitScript(listen);
    page = await context.newPage();
    await page.goto(station.ready.web);
    await page.getByRole('button', { name: 'Sound', exact: true }).click();
    await page.getByRole('radio', { name: 'tones and a voice', exact: true }).check();
    await page.getByRole('button', { name: 'Close', exact: true }).click();
  });
  afterAll(async () => {
    await browser.close();
    await station.stop();
    await removeHome(home);
  });

  async function upload(name: string, sigmaPx: number): Promise<void> {
    const file = join(home, name);
    await writeFile(file, madeRaw({ sigmaPx, ev: 0 }));
    expect((await curlUpload(station, file, `/${name}`)).code).toBe(0);
  }

  test('each frame is heard once, when the whole of it was measured, and no verdict of its preview before', async () => {
    await upload('A0001.DNG', 0.8);
    await expect.poll(() => heard(page)).toEqual(['1 tones', 'Good.']);
    await endText(page);
    await upload('A0002.DNG', 3);
    await expect.poll(async () => (await heard(page)).length).toBe(4);
    const [, , tones, said] = await heard(page);
    expect(tones).toBe('3 tones');
    // 10-90 % rise of a Gaussian of 3 px: 2.563 times as much.
    expect(said).toBe('Bad. Soft: edges 7.7 pixels wide, up to 2.8 pixels is sharp.');
    await endText(page);
  });

  test('the phone makes its word as large as itself, and has the same card of sounds', async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await page.goto(`${station.ready.web}/pocket`);
    await page.getByTestId('pocket-word').click();
    const word = page.getByTestId('pocket-large-word');
    expect(await word.textContent()).toBe('bad');
    const box = await word.boundingBox();
    // Two thirds of the phone's width at least, and nothing of it outside.
    expect(box?.width).toBeGreaterThan(260);
    expect((box?.x ?? -1) + (box?.width ?? 999)).toBeLessThanOrEqual(390);
    expect((await new AxeBuilder({ page }).analyze()).violations.map(({ id }) => id)).toEqual([]);
    await word.click();
    await word.waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'Sound', exact: true }).click();
    expect(await page.getByRole('radio', { name: 'tones and a voice', exact: true }).isChecked()).toBe(true);
    expect((await new AxeBuilder({ page }).analyze()).violations.map(({ id }) => id)).toEqual([]);
    await page.getByRole('button', { name: 'Close', exact: true }).click();
    await page.getByRole('button', { name: 'Vibrate' }).click();
    expect(await felt(page)).toEqual([[70]]);
    await upload('A0003.DNG', 3);
    // Once, when it is measured: not for the file that came, and not for its copy that is missing.
    await expect.poll(async () => (await felt(page)).length).toBe(2);
    expect((await felt(page))[1]).toEqual([350, 120, 350]);
  });
});
