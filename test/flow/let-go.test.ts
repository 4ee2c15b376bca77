import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { renderFrame } from '../../src/stand-in/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, removeHome, startStation } from './running-station.ts';

test.skipIf(!hasBrowser || !hasProgram('curl'))(
  'a broken-off file is given up on the page, after being asked once more',
  async () => {
    const home = await newHome();
    const station = await startStation(home);
    const browser = await launchBrowser();
    try {
      const raw = (await renderFrame({ sizeMegapixels: 0.3 })).bytes;
      const file = join(home, 'cut.dng');
      await writeFile(file, raw.subarray(0, raw.length >> 1));
      expect((await curlUpload(station, file, '/QMST0001.DNG')).code).not.toBe(0);
      const page = await (await browser.newContext()).newPage();
      await page.goto(station.ready.web);
      const card = page.locator('.sentence-card');
      await card.getByRole('button', { name: 'Wait no longer' }).click();
      await card.getByRole('button', { name: 'Keep waiting' }).click();
      expect(await station.frames()).toHaveLength(1);
      await card.getByRole('button', { name: 'Wait no longer' }).click();
      await card.getByText('What came stays on the disk.').waitFor();
      await card.getByRole('button', { name: 'Wait no longer' }).click();
      await eventually('it is waited for no longer', async () => (await station.frames()).length === 0);
      await card.waitFor({ state: 'visible' });
    } finally {
      await browser.close();
      await station.stop();
      await removeHome(home);
    }
  },
);
