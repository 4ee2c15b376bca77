import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type FrameReadings, frameReadings } from '../../src/contract/index.ts';
import { renderFrame } from '../../src/stand-in/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

describe.skipIf(!hasBrowser || !hasProgram('curl'))('a verdict opened to its plots', () => {
  let station: RunningStation;
  let browser: Browser;
  let page: Page;
  const ids: string[] = [];

  beforeAll(async () => {
    station = await startStation(await newHome());
    await call('POST', '/jobs', { code: 'QM-1', open: true });
    await call('POST', '/jobs/QM-1/shots', { name: 'Mug' });
    for (const name of ['QMST0001.DNG', 'QMST0002.DNG']) {
      const file = join(station.home, name);
      await writeFile(file, (await renderFrame({ sizeMegapixels: 0.5 })).bytes);
      expect((await curlUpload(station, file, `/DCIM/100SETSD/${name}`)).code).toBe(0);
      const read = await eventually(`${name} is read`, async () =>
        (await station.frames()).find(
          (frame) => frame.name === name && frame.readings.headroomStops !== undefined,
        ),
      );
      ids.push(read.id);
    }
    const shot = (await station.frame(ids[0] ?? '')).shot ?? '';
    await call('PATCH', `/jobs/QM-1/shots/${shot}`, { reference: ids[0] });
    browser = await launchBrowser();
    page = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
    await page.goto(station.ready.web);
    await page.locator('[data-testid="picture"][data-state="rendered"]').waitFor();
  });

  afterAll(async () => {
    await browser?.close();
    await station?.stop();
    await removeHome(station.home);
  });

  async function call(method: string, path: string, body: unknown): Promise<void> {
    const answer = await fetch(`${station.ready.web}/api/v1${path}`, {
      method,
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    expect(answer.ok).toBe(true);
  }

  async function readings(id: string): Promise<FrameReadings> {
    const answer = await fetch(`${station.ready.web}/api/v1/frames/${id}/readings`);
    return frameReadings.parse(await answer.json());
  }

  /** Pixels of the sheet over the picture that something was drawn on. */
  const drawn = (): Promise<number> =>
    page.locator('canvas.laid').evaluate((element) => {
      const { width, height } = element as HTMLCanvasElement;
      const data = (element as HTMLCanvasElement).getContext('2d')?.getImageData(0, 0, width, height).data;
      return (data ?? []).filter((_, at) => at % 4 === 3).filter((alpha) => alpha > 0).length;
    });

  /** Whether the open verdict lies over part of the picture. */
  async function isCovered(): Promise<boolean> {
    const [picture, column] = await Promise.all([
      page.locator('[data-testid="picture"]').boundingBox(),
      page.locator('.reading-column').boundingBox(),
    ]);
    if (picture === null || column === null) throw new Error('picture and column are to be seen');
    const across =
      Math.min(picture.x + picture.width, column.x + column.width) - Math.max(picture.x, column.x);
    const down =
      Math.min(picture.y + picture.height, column.y + column.height) - Math.max(picture.y, column.y);
    return across > 0 && down > 0;
  }

  test('the readings add up: shares of a channel to all of it, runs to the map, tiles to theirs', async () => {
    const { sharp, exposed, light } = await readings(ids[1] ?? '');
    for (const channel of ['red', 'green', 'blue'] as const) {
      expect(exposed?.histogram[channel].reduce((sum, share) => sum + share, 0)).toBeCloseTo(100, 0);
    }
    const { columns = 0, rows = 0, runs = [] } = exposed?.lost ?? {};
    expect(runs.filter((_, at) => at % 2 === 0).reduce((sum, run) => sum + run, 0)).toBe(columns * rows);
    expect(sharp?.map.widthsPx).toHaveLength((sharp?.map.columns ?? 0) * (sharp?.map.rows ?? 0));
    expect(sharp?.profile?.ninetyPx).toBeGreaterThan(sharp?.profile?.tenPx ?? 0);
    // The same set under the same light: what differs is noise.
    expect(light?.baseline).toEqual({ kind: 'reference', name: 'QMST0001.DNG' });
    expect(Math.abs(light?.frames.at(-1)?.ev ?? 1)).toBeLessThan(0.05);
  });

  test('opened by key, Sharp stands beside the picture and over it, and the picture gives way once', async () => {
    const picture = page.locator('[data-testid="picture"]');
    const before = await picture.getAttribute('data-box');
    await page.keyboard.press('2');
    await page.locator('.reading-column [data-plot="edge"]').waitFor();
    await page.locator('canvas.laid[data-laid="sharp"]').waitFor();
    expect(await drawn()).toBeGreaterThan(200);
    expect(await isCovered()).toBe(false);
    const beside = await picture.boundingBox();
    await page.keyboard.press('3');
    await page.locator('[data-plot="stops"]').waitFor();
    expect(await picture.boundingBox()).toEqual(beside);
    await page.keyboard.press('Escape');
    await page.locator('.reading-column').waitFor({ state: 'detached' });
    expect(await picture.getAttribute('data-box')).toBe(before);
    await page.keyboard.press('2');
    await page.locator('.reading-column [data-plot="edge"]').waitFor();
    await page.locator('canvas.laid[data-laid="sharp"]').waitFor();
    const found = await new AxeBuilder({ page })
      .withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa'])
      .analyze();
    expect(found.violations.map(({ id, nodes }) => ({ id, at: nodes.map(({ target }) => target) }))).toEqual(
      [],
    );
    await page.keyboard.press('l');
    await page.locator('canvas.laid').waitFor({ state: 'detached' });
    await page.keyboard.press('l');
  });

  test('Exposed shows the light by stops and that of the last frames; In place the reference and the difference', async () => {
    await page.keyboard.press('3');
    await page.locator('[data-plot="stops"]').waitFor();
    expect(await page.locator('[data-plot="drift"] figcaption').textContent()).toContain('QMST0001.DNG');
    await page.keyboard.press('4');
    await page.locator('canvas.laid[data-laid="ghost"]').waitFor();
    const opacity = page.locator('.ghost-opacity input');
    await opacity.focus();
    const whole = await drawn();
    expect(whole).toBeGreaterThan(50_000);
    await page.keyboard.press('d');
    await page.locator('canvas.laid[data-difference="true"]').waitFor();
    const blend = await page
      .locator('canvas.laid')
      .evaluate((element) => getComputedStyle(element).mixBlendMode);
    expect(blend).toBe('difference');
  });

  test('what lies open lies open again after the page was loaded anew', async () => {
    await page.keyboard.press('2');
    await page.reload();
    await page.locator('.reading-column[data-question="sharp"] [data-plot="edge"]').waitFor();
  });

  test('a spot is pointed out with the arrows, read there, and taken back by undo', async () => {
    const id = ids[1] ?? '';
    await page.locator('[data-plot="spot"] button').first().click();
    await page.locator('.spot-picker').waitFor();
    for (const key of ['Shift+ArrowLeft', 'ArrowLeft', 'ArrowRight']) await page.keyboard.press(key);
    await page.keyboard.press('Enter');
    const pointed = await eventually('the spot is kept', async () => (await station.frame(id)).spot);
    // The middle, five hundredths to the left.
    expect((pointed.box.left + pointed.box.right) / 2).toBeCloseTo(0.45, 6);
    expect(pointed.onward).toBe(true);
    const read = await eventually('it is read there', async () => {
      const { sharp } = await readings(id);
      return sharp?.spot?.teller === 'given' ? sharp.spot : null;
    });
    expect(read.left).toBeCloseTo(pointed.box.left, 6);
    // It counts for this frame and those behind it, not for one before it.
    expect((await readings(ids[0] ?? '')).sharp?.spot?.teller).not.toBe('given');
    await page.keyboard.press('Control+z');
    await eventually('the spot is taken back', async () => (await station.frame(id)).spot === null);
    await eventually(
      'it is read as before',
      async () => (await readings(id)).sharp?.spot?.teller !== 'given',
    );
  });

  test('a spot that was pointed out just before the station was killed is read after its next start', async () => {
    const id = ids[1] ?? '';
    const box = { left: 0.3, top: 0.3, right: 0.4, bottom: 0.4 };
    await call('PATCH', `/frames/${id}`, { spot: { box, onward: false } });
    await station.kill();
    station = await startStation(station.home);
    const read = await eventually('it is read there', async () => {
      const { sharp } = await readings(id);
      return sharp?.spot?.teller === 'given' ? sharp.spot : null;
    });
    expect(read.left).toBeCloseTo(box.left, 6);
    await page.goto(station.ready.web);
    await page.locator('[data-testid="picture"][data-state="rendered"]').waitFor();
  });

  test('another spot on the reference changes what is shown of a frame that is held against it, by itself', async () => {
    const [reference = '', id = ''] = ids;
    const before = (await station.frame(id)).version;
    const box = { left: 0.5, top: 0.3, right: 0.6, bottom: 0.4 };
    const events = new AbortController();
    const answer = await fetch(`${station.ready.web}/api/v1/events`, { signal: events.signal });
    const heard: string[] = [];
    const listen = (async () => {
      const text = new TextDecoder();
      for await (const chunk of answer.body ?? []) heard.push(text.decode(chunk as Uint8Array));
    })().catch(() => undefined);
    await call('PATCH', `/frames/${reference}`, { spot: { box, onward: false } });
    await eventually('every page is told to load again', async () => heard.join('').includes('resync'));
    events.abort();
    await listen;
    expect((await station.frame(id)).version).toBeGreaterThan(before);
  });

  test('two clicks on the picture, a length and Enter say how large a pixel is, and the Job page offers millimetres', async () => {
    await page.keyboard.press('4');
    await page.locator('[data-plot="scale"] button').click();
    const stage = await page.locator('.spot-picker').boundingBox();
    const [x, y] = [(stage?.x ?? 0) + (stage?.width ?? 0) / 2, (stage?.y ?? 0) + (stage?.height ?? 0) / 2];
    await page.mouse.click(x - 60, y);
    await page.mouse.click(x + 60, y);
    // What is typed next is the length: none of it may go to the page's keys, which open verdicts by their number.
    await page.keyboard.type('100');
    await page.locator('.reading-column[data-question="inPlace"]').waitFor();
    await page.keyboard.press('Enter');
    const { mmPerPx = 0 } = await eventually('the scale counts', async () => {
      const { readings: told } = await station.frame(ids[1] ?? '');
      return told.mmPerPx !== undefined && told;
    });
    // 120 px of the screen, as the picture lies on it (what the camera says its width is: 864 px at half a megapixel).
    const [, , width = 0] = ((await page.locator('[data-testid="picture"]').getAttribute('data-box')) ?? '')
      .split(',')
      .map(Number);
    expect(mmPerPx).toBeCloseTo(100 / ((120 * 864) / width), 3);
    await page.locator('[data-plot="scale"]', { hasText: 'by two points, 100 mm' }).waitFor();
    await page.goto(`${station.ready.web}/#/job`);
    await page.getByText('subject moved, on the set').first().waitFor({ state: 'attached' });
    await page.goto(station.ready.web);
    await page.locator('[data-testid="picture"][data-state="rendered"]').waitFor();
  });

  test('on a phone it is a sheet below the picture, made low by a press and pulled away by its handle', async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await page.keyboard.press('3');
    await page.locator('[data-plot="stops"]').waitFor();
    expect(await isCovered()).toBe(false);
    const found = await new AxeBuilder({ page })
      .withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa'])
      .analyze();
    expect(found.violations.map(({ id, nodes }) => ({ id, at: nodes.map(({ target }) => target) }))).toEqual(
      [],
    );
    const height = async (): Promise<number> =>
      (await page.locator('.reading-column').boundingBox())?.height ?? 0;
    const half = await height();
    await page.locator('.sheet-handle').click();
    await eventually('it is low', async () => (await height()) < half / 2);
    expect(await isCovered()).toBe(false);
    const handle = await page.locator('.sheet-handle').boundingBox();
    await page.mouse.move(195, (handle?.y ?? 0) + 10);
    await page.mouse.down();
    await page.mouse.move(195, 842, { steps: 4 });
    await page.mouse.up();
    await page.locator('.reading-column').waitFor({ state: 'detached' });
    await page.setViewportSize({ width: 1280, height: 800 });
  });
});
