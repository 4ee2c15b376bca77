import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { look as lookShape } from '../../src/contract/index.ts';
import { defaultLook } from '../../src/look/index.ts';
import { renderFrame } from '../../src/stand-in/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

const turnedDeg = 5;
const crop = { across: 1, down: 1, size: 0.6, centreX: 0.4, centreY: 0.5 };

/** What is read and pointed out lies in the whole original; the Set page shows a picture that its look cut and turned. */
describe.skipIf(!hasBrowser || !hasProgram('curl'))('over a picture that its look cuts and turns', () => {
  let station: RunningStation;
  let browser: Browser;
  let page: Page;
  let id: string;

  beforeAll(async () => {
    station = await startStation(await newHome());
    const file = join(station.home, 'QMST0001.DNG');
    await writeFile(file, (await renderFrame({ sizeMegapixels: 0.5 })).bytes);
    expect((await curlUpload(station, file, '/DCIM/100SETSD/QMST0001.DNG')).code).toBe(0);
    const read = await eventually('it is read', async () =>
      (await station.frames()).find(({ readings }) => readings.headroomStops !== undefined),
    );
    id = read.id;
    const document = { ...defaultLook, title: 'Cut', geometry: { straightenDeg: turnedDeg, crop } };
    const saved = lookShape.parse(await (await call('POST', '/looks', document)).json());
    await call('POST', `/looks/${saved.id}/use`, { frames: [id] });
    await eventually('it is rendered square', async () => {
      const { picture } = await station.frame(id);
      return picture.state === 'rendered' && picture.width === picture.height;
    });
    browser = await launchBrowser();
    page = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
    await page.goto(station.ready.web);
    await page.locator('[data-testid="picture"][data-state="rendered"]').waitFor();
  }, 120_000);

  afterAll(async () => {
    await browser?.close();
    await station?.stop();
    await removeHome(station.home);
  });

  async function call(method: string, path: string, body: unknown): Promise<Response> {
    const answer = await fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    expect(answer.ok, path).toBe(true);
    return answer;
  }

  /**
   * By hand, not by the code that is tested: the crop's middle is where the look puts it, a pixel is as large as the
   * original's, and what is shown is turned clockwise.
   */
  async function byHand() {
    const { picture } = await station.frame(id);
    if (picture.state !== 'rendered' || picture.original === null) throw new Error('it is placed');
    const { width, height, original } = picture;
    const [sine, cosine] = [Math.sin((turnedDeg * Math.PI) / 180), Math.cos((turnedDeg * Math.PI) / 180)];
    return {
      original,
      toOriginal: (x: number, y: number): readonly [number, number] => {
        const [dx, dy] = [(x - 0.5) * width, (y - 0.5) * height];
        const at = [
          crop.centreX * original.width + dx * cosine + dy * sine,
          0.5 * original.height - dx * sine + dy * cosine,
        ];
        return [(at[0] ?? 0) / original.width, (at[1] ?? 0) / original.height];
      },
      toShown: (x: number, y: number): readonly [number, number] => {
        const [dx, dy] = [(x - crop.centreX) * original.width, (y - 0.5) * original.height];
        return [0.5 + (dx * cosine - dy * sine) / width, 0.5 + (dx * sine + dy * cosine) / height];
      },
    };
  }

  test('a spot that is pointed out is noted where it lies in the original, and drawn where it is seen', async () => {
    const { original, toOriginal, toShown } = await byHand();
    await page.keyboard.press('2');
    await page.getByRole('button', { name: 'Point it out' }).click();
    await page.locator('.spot-picker').waitFor();
    const picture = await page.locator('[data-testid="picture"]').boundingBox();
    if (picture === null) throw new Error('there is a picture');
    await page.mouse.click(picture.x + 0.3 * picture.width, picture.y + 0.35 * picture.height);
    const spot = await eventually('the spot is noted', async () => (await station.frame(id)).spot);
    const box = spot.box;
    const middle = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
    const [x, y] = toOriginal(0.3, 0.35);
    // A pixel of the page is about one and a half of this small original: two of them, as shares.
    expect(Math.abs((middle[0] ?? 0) - x)).toBeLessThan(2 / original.width);
    expect(Math.abs((middle[1] ?? 0) - y)).toBeLessThan(2 / original.height);
    await page.locator('canvas.laid[data-laid="sharp"]').waitFor();
    const corners = [
      toShown(box.left, box.top),
      toShown(box.right, box.top),
      toShown(box.right, box.bottom),
      toShown(box.left, box.bottom),
    ];
    const sheet = await page.locator('canvas.laid').boundingBox();
    const beside = await page.locator('[data-testid="picture"]').boundingBox();
    if (sheet === null || beside === null) throw new Error('both are to be seen');
    const points = corners.map(
      ([across, down]) =>
        [
          Math.round(beside.x - sheet.x + across * beside.width),
          Math.round(beside.y - sheet.y + down * beside.height),
        ] as const,
    );
    const alphas = () =>
      page.locator('canvas.laid').evaluate((element, wanted) => {
        const context = (element as HTMLCanvasElement).getContext('2d');
        return wanted.map(([px, py]) => context?.getImageData(px, py, 1, 1).data[3] ?? 0);
      }, points);
    // What is read at the new spot comes by an event.
    await expect.poll(alphas, { timeout: 60_000 }).toEqual([255, 255, 255, 255]);
  });
});
