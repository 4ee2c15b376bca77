import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type CameraEntry, station as stationSchema } from '../../src/contract/index.ts';
import { readSlate } from '../../src/slate/index.ts';
import { type SightPool, startSightPool } from '../../src/workers/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const wcag22aa = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
const shots = ['Mug', 'Jug with a lid and a very long name for a jug', 'Bowl', 'Teapot', 'Schüssel'];

/** The pages that are held before a camera, in a real Chromium; what they show is read by ZXing-C++. */
describe.skipIf(!hasBrowser || !hasProgram('curl'))('slates and the clock on their pages', () => {
  let home: string;
  let station: RunningStation;
  let browser: Browser;
  let sight: SightPool;

  beforeAll(async () => {
    home = await newHome();
    [station, browser] = await Promise.all([startStation(home), launchBrowser()]);
    sight = startSightPool({ size: 0 });
    await post('/jobs', { code: 'QM-26', title: 'Autumn catalogue', open: true });
    for (const name of shots) await post('/jobs/QM-26/shots', { name });
  });

  afterAll(async () => {
    await sight.close();
    await browser.close();
    await station.stop();
    await removeHome(home);
  });

  async function post(path: string, body: unknown): Promise<void> {
    const answer = await fetch(`${station.ready.web}/api/v1${path}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    expect(answer.status).toBeLessThan(300);
  }

  async function open(path: string, width = 1280, height = 800): Promise<Page> {
    const context = await browser.newContext({ viewport: { width, height } });
    const page = await context.newPage();
    await page.goto(`${station.ready.web}${path}`);
    return page;
  }

  const camera = async (): Promise<CameraEntry | undefined> =>
    stationSchema.parse(await (await fetch(`${station.ready.web}/api/v1/station`)).json()).cameras[0];

  test('every shot has its page, and every code says its shot', async () => {
    const page = await open('/slates');
    await page.locator('.slate-page').first().waitFor();
    const pages = await page.locator('.slate-page').all();
    expect(pages).toHaveLength(shots.length);
    const ids = ['mug', 'jug-with-a-lid-and-a-very-long-name-for', 'bowl', 'teapot', 'schuessel'];
    for (const [index, sheet] of pages.entries()) {
      const { codes } = await sight.look({ picture: { bytes: await sheet.screenshot() }, small: false });
      expect(codes.map(({ text }) => readSlate(text))).toEqual([
        { kind: 'shot', job: 'QM-26', shot: ids[index] },
      ]);
      expect(await sheet.locator('.slate-number').textContent()).toBe(String(index + 1));
    }
    const sheet = await page.locator('.slate-sheet').screenshot();
    const { codes } = await sight.look({ picture: { bytes: sheet }, small: false });
    expect(new Set(codes.map(({ text }) => text)).size).toBe(shots.length);
    await page.close();
  });

  test.each([
    ['A4', 210, 297],
    ['Letter', 215.9, 279.4],
  ])('on %s each shot is one page, and the choices stay on the screen', async (paper, widthMm, heightMm) => {
    const page = await open('/slates');
    await page.getByLabel(paper, { exact: true }).check();
    await page.getByLabel('A sheet of all shots').uncheck();
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
    expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(shots.length);
    const [, , , width = '', height = ''] =
      /\/MediaBox\s*\[\s*(\S+)\s+(\S+)\s+(\S+)\s+(\S+?)\s*\]/.exec(pdf)?.slice(0).map(String) ?? [];
    // PDF units are 1/72 inch (ISO 32000-1, 8.3.2.3).
    expect((Number(width) / 72) * 25.4).toBeCloseTo(widthMm, 0);
    expect((Number(height) / 72) * 25.4).toBeCloseTo(heightMm, 0);
    await page.close();
  });

  test('the grey card is switched on for the job here', async () => {
    const page = await open('/slates');
    const box = page.getByLabel(/grey card/);
    expect(await box.isChecked()).toBe(false);
    await box.check();
    const job = await eventually('the job has it', async () => {
      const told: unknown = await (await fetch(`${station.ready.web}/api/v1/jobs/QM-26`)).json();
      return JSON.stringify(told).includes('"greyCard":true') ? told : null;
    });
    expect(job).not.toBeNull();
    await page.close();
  });

  test('a camera that photographs the clock is measured, and put right with one press', async () => {
    const page = await open('/clock');
    await page.locator('.code').waitFor();
    // The page asks again and takes the surer answer: the first one may have met a busy station.
    await page.waitForResponse((answer) => answer.url().endsWith('/api/v1/station'));
    const beforeMs = Date.now();
    const shown = await page.screenshot();
    const tookMs = Date.now() - beforeMs;
    const cameraMs = beforeMs + tookMs / 2 + 2400;
    const at = new Date(cameraMs).toISOString();
    const file = join(home, 'CLOCK001.JPG');
    await sharp(shown)
      .jpeg()
      .withExif({
        IFD2: {
          DateTimeOriginal: at.slice(0, 19).replaceAll('-', ':').replace('T', ' '),
          SubSecTimeOriginal: at.slice(20, 22),
          OffsetTimeOriginal: '+00:00',
          ExposureTime: '1/125',
        },
      })
      .toFile(file);
    expect((await readFile(file)).length).toBeGreaterThan(1000);
    expect((await curlUpload(station, file, '/CLOCK001.JPG')).code).toBe(0);
    const seen = await eventually('the clock is read', async () => (await camera())?.clockSeen);
    // The screenshot was taken at some moment of the call, and the code was drawn up to 200 ms before.
    const unsureMs = seen.plusMinusMs + tookMs / 2;
    expect(Math.abs(seen.offsetMs + 2400)).toBeLessThanOrEqual(unsureMs);
    await page.getByRole('button', { name: 'Put cam1 right' }).click();
    await eventually('it is put right', async () => (await camera())?.clockOffsetMs === seen.offsetMs);
    await page.getByText('clock is right').waitFor();
    await page.close();
  });

  test.each([
    [1920, 1080],
    [1280, 800],
    [390, 844],
  ])('at %i x %i nothing is cut off, and everybody can use it', async (width, height) => {
    for (const path of ['/slates', '/clock']) {
      const page = await open(path, width, height);
      await page.locator('.code').first().waitFor();
      const { violations } = await new AxeBuilder({ page }).withTags(wcag22aa).analyze();
      expect(violations.map(({ id, nodes }) => ({ id, at: nodes.map((node) => node.target) }))).toEqual([]);
      const overflow = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect(overflow).toBeLessThanOrEqual(0);
      if (process.env.SETSIDE_SCREENSHOTS !== undefined)
        await writeFile(
          join(process.env.SETSIDE_SCREENSHOTS, `${path.slice(1)}-${width}x${height}.png`),
          await page.screenshot(),
        );
      await page.close();
    }
  });
});
