import { createHash } from 'node:crypto';
import AxeBuilder from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import ssh2 from 'ssh2';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { ed25519Pair } from '../ed25519-pair.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** Several cameras: added, changed and ended on the page, without a restart. */
describe.skipIf(!hasBrowser)('the camera sheet of a running station', () => {
  let home: string;
  let station: RunningStation;
  let browser: Browser;
  let page: Page;

  beforeAll(async () => {
    home = await newHome();
    station = await startStation(home);
    browser = await launchBrowser();
    page = await (await browser.newContext()).newPage();
    await page.goto(station.ready.web);
    await page.getByRole('button', { name: 'Camera sheet' }).click();
  });

  afterAll(async () => {
    await browser.close();
    await station.stop();
    await removeHome(home);
  });

  const cameras = async (): Promise<{ name: string; allow: string[]; ended: boolean; password: string }[]> =>
    ((await (await fetch(`${station.ready.web}/api/v1/station`)).json()) as { cameras: never[] }).cameras;
  const overhead = (): ReturnType<Page['locator']> => page.locator('.camera-access', { hasText: 'overhead' });

  test('a camera is added by name and its log-in stands on the sheet', async () => {
    await page.getByLabel('One more camera').fill('overhead');
    await page.getByRole('button', { name: 'Add' }).click();
    const password = await eventually(
      'it is known',
      async () => (await cameras()).find(({ name }) => name === 'overhead')?.password,
    );
    await page.locator('dialog .entries').getByText(password).waitFor();
  });

  test('a name that is taken is refused with the station’s own words', async () => {
    await page.getByLabel('One more camera').fill('overhead');
    await page.getByRole('button', { name: 'Add' }).click();
    await page.getByText('There is a camera of this name already. Choose another name').waitFor();
  });

  test('the sheet leads to the Line page, where each camera’s access is', async () => {
    await page.getByRole('link', { name: /on the Line page$/ }).click();
    await page.getByRole('heading', { name: 'Who may come in' }).waitFor();
    await overhead().waitFor();
  });

  test('where it may come from is taken on Enter, and what is no address is said', async () => {
    await overhead().locator('summary').click();
    const field = overhead().getByLabel('May come from');
    await field.fill('192.168.7.0/24 3c:22:fb:01:02:03');
    await field.press('Enter');
    await eventually('it is kept', async () => (await cameras())[1]?.allow.length === 2);
    await field.fill('somewhere');
    await field.press('Enter');
    await overhead().getByText('That is no address a camera could come from').waitFor();
  });

  test('a key is added and removed by its fingerprint, and a private key is refused in words', async () => {
    const pair = ed25519Pair();
    const field = overhead().getByLabel('One more key');
    await field.fill(pair.private);
    await overhead().getByRole('button', { name: 'Add the key' }).click();
    await overhead().getByText('That is a private key').waitFor();
    expect(await field.inputValue()).toBe('');
    const blob = ssh2.utils.parseKey(pair.public);
    if (blob instanceof Error) throw blob;
    const digest = createHash('sha256').update(blob.getPublicSSH()).digest('base64').replace(/=+$/, '');
    await field.fill(`${pair.public} the tablet`);
    await overhead().getByRole('button', { name: 'Add the key' }).click();
    await overhead().getByText(`SHA256:${digest}`).waitFor();
    await overhead().getByText('ED25519, the tablet').waitFor();
    await overhead()
      .getByRole('button', { name: /^Remove the tablet/ })
      .click();
    await overhead().getByText(`SHA256:${digest}`).waitFor({ state: 'detached' });
  });

  test('it is ended and let in again, and the sheet passes axe-core open and shut', async () => {
    await overhead().getByRole('button', { name: 'Let it in no more' }).click();
    await eventually('it is ended', async () => (await cameras())[1]?.ended);
    await overhead().getByRole('button', { name: 'Let it in again' }).click();
    await eventually('it is back', async () => !(await cameras())[1]?.ended);
    await page.getByText('What happened on the line, the last 30 days').first().click();
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => [id, nodes.map(({ target }) => target)])).toEqual([]);
  });
});
