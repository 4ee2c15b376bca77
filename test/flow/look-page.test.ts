import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { lookList, look as lookShape } from '../../src/contract/index.ts';
import { readExr } from '../../src/image/index.ts';
import { defaultLook, type Look, lookSchema } from '../../src/look/index.ts';
import { renderFrame } from '../../src/stand-in/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { axeFindings } from '../render/page/axe.ts';
import { fileMeans, meanDifference } from '../render/page/canvas-pixels.ts';
import { stillLifeJpeg } from '../render/page/still-life.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/**
 * 8-bit units, means over a grid: the page averages before the look, the station behind it, and the station's answer went
 * through JPEG. Pixel by pixel the two are held against each other in test/render/look-painter.test.ts.
 */
const likeMax = 1;

describe.skipIf(!hasBrowser || !hasProgram('curl'))('the Look page', () => {
  let station: RunningStation;
  let browser: Awaited<ReturnType<typeof launchBrowser>>;
  let frame: string;

  beforeAll(async () => {
    station = await startStation(await newHome());
    const file = join(station.home, 'QMST0001.DNG');
    await writeFile(file, (await renderFrame({ sizeMegapixels: 0.5 })).bytes);
    expect((await curlUpload(station, file, '/DCIM/100SETSD/QMST0001.DNG')).code).toBe(0);
    const rendered = await eventually('the frame is rendered', async () =>
      (await station.frames()).find(({ picture }) => picture.state === 'rendered'),
    );
    frame = rendered.id;
    browser = await launchBrowser();
  });

  afterAll(async () => {
    await browser?.close();
    await station?.stop();
    await removeHome(station.home);
  });

  async function open(query = '', viewport = { width: 1280, height: 800 }): Promise<Page> {
    const context = await browser.newContext({ viewport });
    const page = await context.newPage();
    await page.goto(`${station.ready.web}/look${query}`);
    await page.locator('[data-testid="look-picture"][data-state="shown"]').waitFor();
    return page;
  }

  const truth = (page: Page) => page.getByTestId('look-truth');
  const openInstrument = async (page: Page, instrument: string): Promise<void> => {
    const piece = page.locator(`.strip-piece[data-instrument="${instrument}"]`);
    if ((await piece.getAttribute('aria-expanded')) !== 'true') await piece.click();
  };
  const knob = (page: Page, name: string) =>
    page.locator('.look-bench').getByRole('slider', { name, exact: true });

  async function shown(page: Page): Promise<Buffer> {
    const address = await page
      .getByTestId('look-picture')
      .evaluate((element) => (element as HTMLCanvasElement).toDataURL('image/png'));
    return Buffer.from(address.split(',')[1] ?? '', 'base64');
  }

  async function tried(look: Look): Promise<Buffer> {
    const answer = await fetch(`${station.ready.web}/api/v1/frames/${frame}/try`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(look),
    });
    expect(answer.status).toBe(200);
    return Buffer.from(await answer.arrayBuffer());
  }

  async function likeness(page: Page, look: Look): Promise<number> {
    const expected = await tried(look);
    const { width = 1, height = 1 } = await sharp(expected).metadata();
    const [own, theirs] = [
      await fileMeans(await shown(page), width, height),
      await fileMeans(expected, width, height),
    ];
    return meanDifference(own, theirs);
  }

  test('the canvas shows the frame as the station renders it, before and after a knob was turned', async () => {
    const page = await open();
    await expect.poll(() => truth(page).textContent()).toBe('As delivered');
    expect(await likeness(page, defaultLook)).toBeLessThan(likeMax);
    await openInstrument(page, 'exposure');
    for (let press = 0; press < 2; press++) await knob(page, 'Exposure').press('PageUp');
    const brighter = lookSchema.parse({ ...defaultLook, exposureEv: 1 });
    expect(await likeness(page, defaultLook)).toBeGreaterThan(10);
    await expect.poll(() => likeness(page, brighter)).toBeLessThan(likeMax);
    await page.context().close();
  });

  test('a handle of the curve is dragged, undone, done again, and is still there after a reload', async () => {
    const page = await open();
    await openInstrument(page, 'curve');
    const value = () => page.locator('.handle[data-handle="white"]').getAttribute('aria-valuenow');
    expect(await value()).toBe('3');
    const at = await page.locator('.handle[data-handle="white"] .handle-dot').boundingBox();
    if (at === null) throw new Error('there is a handle');
    await page.mouse.move(at.x + at.width / 2, at.y + at.height / 2);
    await page.mouse.down();
    for (let step = 1; step <= 8; step++) await page.mouse.move(at.x + at.width / 2 + 5 * step, at.y + 6);
    await page.mouse.up();
    const dragged = Number(await value());
    expect(dragged).toBeGreaterThan(4);
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await value()).toBe('3');
    await page.keyboard.press('Control+Shift+Z');
    expect(Number(await value())).toBe(dragged);
    await page.reload();
    await page.locator('[data-testid="look-picture"][data-state="shown"]').waitFor();
    await openInstrument(page, 'curve');
    expect(Number(await value())).toBe(dragged);
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await value()).toBe('3');
    await page.context().close();
  });

  test('left of the edge stands the look as it was, right of it as it is', async () => {
    const page = await open();
    await openInstrument(page, 'exposure');
    await knob(page, 'Exposure').press('PageUp');
    await page.keyboard.press('b');
    const edge = page.getByRole('slider', { name: /Edge between/ });
    await edge.press('End');
    await expect.poll(() => likeness(page, defaultLook)).toBeLessThan(likeMax);
    await edge.press('Home');
    await expect.poll(() => likeness(page, defaultLook)).toBeGreaterThan(10);
    await page.context().close();
  });

  test('left of the edge the station renders the look as it was, cut as it is now, and the header says so', async () => {
    const page = await open();
    const headers = { 'content-type': 'application/json' };
    const grainy = { ...defaultLook, title: 'Grain only', grain: { density: 0.2 } };
    const body = JSON.stringify(grainy);
    await fetch(`${station.ready.web}/api/v1/looks`, { method: 'POST', headers, body });
    await page.reload();
    await page.locator('[data-testid="look-picture"][data-state="shown"]').waitFor();
    await openInstrument(page, 'versions');
    await page.locator('.look-bench').getByRole('button', { name: 'Grain only', exact: true }).click();
    await page.getByRole('button', { name: 'Work on it' }).click();
    await page.getByText('Grain only, version 1', { exact: true }).waitFor();
    await openInstrument(page, 'grain');
    await knob(page, 'Grain').press('Home');
    await openInstrument(page, 'geometry');
    const asked = page.waitForRequest(
      (request) =>
        /[/]try[?].*-before$/.test(request.url()) && request.postData()?.includes('"density":0.2') === true,
    );
    await page.getByRole('button', { name: '1:1', exact: true }).click();
    await page.getByRole('button', { name: 'Before', exact: true }).click();
    const { grain, geometry } = lookSchema.parse((await asked).postDataJSON());
    expect([grain.density, geometry.crop?.across, geometry.crop?.down]).toEqual([0.2, 1, 1]);
    await page.getByTestId('look-try-before').waitFor();
    await expect
      .poll(() => truth(page).textContent())
      .toMatch(/^As delivered.*[.] Before: Grain only, version 1, cut and turned as now$/);
    await page.context().close();
  });

  test('a look in force that answers late leaves what was turned meanwhile', async () => {
    const headers = { 'content-type': 'application/json' };
    const body = JSON.stringify({ ...defaultLook, title: 'Late', exposureEv: 1 });
    const saved = await fetch(`${station.ready.web}/api/v1/looks`, { method: 'POST', headers, body });
    const { id } = lookShape.parse(await saved.json());
    const give = async (frames: readonly string[], look: string): Promise<void> => {
      const use = { method: 'POST', headers, body: JSON.stringify({ frames }) };
      expect((await fetch(`${station.ready.web}/api/v1/looks/${look}/use`, use)).ok).toBe(true);
    };
    await give([frame], id);
    const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
    const page = await context.newPage();
    let answer: () => void = () => undefined;
    const held = new Promise<void>((done) => {
      answer = done;
    });
    await page.route(`**/api/v1/looks/${id}`, async (route) => {
      await held;
      await route.continue();
    });
    const isAsked = page.waitForRequest(`**/api/v1/looks/${id}`);
    await page.goto(`${station.ready.web}/look?frame=${frame}`);
    await isAsked;
    await openInstrument(page, 'exposure');
    await knob(page, 'Exposure').press('PageUp');
    await page.getByText('Plain, 1 change since', { exact: true }).waitFor();
    const answered = page.waitForResponse(`**/api/v1/looks/${id}`);
    answer();
    await (await answered).finished();
    // The versions come with the same answer, or with one after it: by then it has been heeded.
    await openInstrument(page, 'versions');
    await page
      .locator('.version-list')
      .getByText(/^version 1/)
      .waitFor();
    expect(await page.locator('.look-stand').textContent()).toBe('Plain, 1 change since');
    await context.close();
    const etag = { 'if-match': `"${(await station.frame(frame)).version}"` };
    const back = { method: 'PATCH', headers: { ...headers, ...etag }, body: JSON.stringify({ look: null }) };
    expect((await fetch(`${station.ready.web}/api/v1/frames/${frame}`, back)).status).toBe(200);
  });

  test('a key that is held is one step; after a figure was typed undo is one key; what cannot stand is said', async () => {
    const page = await open();
    await openInstrument(page, 'exposure');
    const stand = page.locator('.look-stand');
    await knob(page, 'Exposure').focus();
    for (let repeat = 0; repeat < 5; repeat++) await page.keyboard.down('ArrowRight');
    await page.keyboard.up('ArrowRight');
    await expect.poll(() => knob(page, 'Exposure').getAttribute('aria-valuenow')).toBe('0.25');
    await expect.poll(() => stand.textContent()).toBe('Plain, 1 change since');
    await page.keyboard.press('Enter');
    await page.keyboard.type('1.5');
    await page.keyboard.press('Enter');
    await expect.poll(() => knob(page, 'Exposure').getAttribute('aria-valuenow')).toBe('1.5');
    await page.keyboard.press('Control+z');
    await expect.poll(() => knob(page, 'Exposure').getAttribute('aria-valuenow')).toBe('0.25');
    // With the mouse in the figure, that nobody types into, too.
    await page.locator('.knob-figure').first().click();
    await page.keyboard.press('Control+z');
    await expect.poll(() => stand.textContent()).toBe('Plain');
    await page.locator('.knob-figure').first().fill('99');
    await page.keyboard.press('Enter');
    await page.getByText('5.00 is the most.').waitFor();
    await openInstrument(page, 'curve');
    await page.getByLabel('Gamma, figure').fill('0.5');
    await page.keyboard.press('Enter');
    await page.getByText(/^Held at 0[.]\d+: lower, the curve would end short of white/).waitFor();
    await page.context().close();
  });

  test('a part that looks beyond the point is named, then shown by the station’s own rendering', async () => {
    const page = await open();
    await openInstrument(page, 'grain');
    await knob(page, 'Grain').press('PageUp');
    await expect
      .poll(() => truth(page).textContent())
      .toMatch(/^(Delivery will differ: grain|As delivered, rendered)/);
    await page.getByTestId('look-try').waitFor();
    expect(await truth(page).textContent()).toBe('As delivered, rendered by the station');
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => truth(page).textContent()).toBe('As delivered');
    await page.context().close();
  });

  test('two parallels are drawn on the picture, and it is levelled by them', async () => {
    const page = await open();
    await openInstrument(page, 'geometry');
    await page.getByRole('button', { name: 'Draw two parallels' }).click();
    const field = await page.locator('.line-field').boundingBox();
    if (field === null) throw new Error('there is a field to draw on');
    for (const [x0, x1] of [
      [0.3, 0.34],
      [0.7, 0.66],
    ] as const) {
      await page.mouse.move(field.x + field.width * x0, field.y + field.height * 0.2);
      await page.mouse.down();
      await page.mouse.move(field.x + field.width * x1, field.y + field.height * 0.8, { steps: 3 });
      await page.mouse.up();
    }
    await page.getByRole('button', { name: 'Take them away' }).waitFor();
    await expect.poll(() => likeness(page, defaultLook)).toBeGreaterThan(likeMax);
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => likeness(page, defaultLook)).toBeLessThan(likeMax);
    await page.context().close();
  });

  test('two parallels are drawn by keys as well, and Escape leaves them undrawn', async () => {
    const page = await open();
    await openInstrument(page, 'geometry');
    const draw = page.getByRole('button', { name: 'Draw two parallels' });
    const field = page.locator('.line-field');
    await draw.press('Enter');
    await field.waitFor();
    await page.keyboard.press('Escape');
    await field.waitFor({ state: 'detached' });
    await expect.poll(() => draw.evaluate((element) => element === document.activeElement)).toBe(true);
    await draw.press('Enter');
    await field.waitFor();
    const press = async (key: string, times: number): Promise<void> => {
      for (let time = 0; time < times; time++) await page.keyboard.press(key);
    };
    // From the middle: one line that leans, one upright.
    await press('Shift+ArrowLeft', 3);
    await press('Enter', 1);
    await press('ArrowDown', 2);
    await press('Enter', 1);
    // Too short to be one: it is told, and its end is set again.
    await page.getByText('too short for a line').waitFor();
    await press('Shift+ArrowDown', 5);
    await press('ArrowRight', 8);
    await press('Enter', 1);
    await press('Shift+ArrowRight', 6);
    await press('Enter', 1);
    await press('Shift+ArrowUp', 5);
    await press('Enter', 1);
    await page.getByRole('button', { name: 'Take them away' }).waitFor();
    await expect.poll(() => likeness(page, defaultLook)).toBeGreaterThan(likeMax);
    await page.context().close();
  });

  test('something neutral is pointed at by keyboard, and the balance is by it', async () => {
    const page = await open();
    await openInstrument(page, 'balance');
    await page.getByRole('button', { name: 'Point at something neutral' }).click();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await page.getByText('by something neutral').waitFor();
    await page.context().close();
  });

  test('a look is saved as a new version, listed, and given to the frame', async () => {
    const page = await open(`?frame=${frame}`);
    await openInstrument(page, 'exposure');
    await knob(page, 'Exposure').press('PageUp');
    await openInstrument(page, 'versions');
    await page.getByLabel('Name').fill('Evening');
    await page.locator('.save-form').getByRole('button', { name: 'Save as a new version' }).click();
    await page
      .locator('.version-list')
      .getByText(/^version 1/)
      .waitFor();
    await page.getByText('Evening, version 1', { exact: true }).waitFor();
    // The same once more is the version that is there.
    await page.locator('.save-form').getByRole('button', { name: 'Save as a new version' }).click();
    await page.getByText('It is version 1 already; none was added.').waitFor();
    const side = page.locator('.version-list').getByRole('button', { name: 'Side by side' });
    await side.click();
    await page.getByText('Choose one more to see the two side by side.').waitFor();
    expect(await side.getAttribute('aria-pressed')).toBe('true');
    await side.click();
    await expect.poll(() => side.getAttribute('aria-pressed')).toBe('false');
    await page.getByLabel('this frame').check();
    await page.getByRole('button', { name: 'Give', exact: true }).click();
    await page.getByText('Given.').waitFor();
    expect((await station.frame(frame)).look).toMatchObject({ name: 'Evening', version: 1, from: 'frame' });
    const kept = lookList.parse(await (await fetch(`${station.ready.web}/api/v1/looks`)).json());
    expect(kept.looks.map(({ name, document }) => [name, document.exposureEv])).toContainEqual([
      'Evening',
      0.5,
    ]);
    // A page opened anew begins with the look in force.
    const fresh = await open(`?frame=${frame}`);
    await fresh.getByText('Evening, version 1', { exact: true }).waitFor();
    await fresh.context().close();
    await page.context().close();
  });

  test('two versions side by side: the header says so, keys of the picture rest, Escape goes back to where one was', async () => {
    const headers = { 'content-type': 'application/json' };
    for (const exposureEv of [0.1, 0.2]) {
      const body = JSON.stringify({ ...defaultLook, title: 'Pair', exposureEv });
      await fetch(`${station.ready.web}/api/v1/looks`, { method: 'POST', headers, body });
    }
    const page = await open(`?frame=${frame}`);
    await openInstrument(page, 'versions');
    await page.locator('.look-bench').getByRole('button', { name: 'Pair', exact: true }).click();
    const sides = page.locator('.version-list').getByRole('button', { name: 'Side by side' });
    await expect.poll(() => sides.count()).toBe(2);
    await sides.first().click();
    await sides.last().click();
    await page.locator('.look-compare').waitFor();
    await expect.poll(() => truth(page).textContent()).toMatch(/^Two saved versions/);
    await page.keyboard.press('b');
    await page.keyboard.press('Escape');
    await page.locator('.look-compare').waitFor({ state: 'detached' });
    expect(await page.locator('.edge-bar').count()).toBe(0);
    await expect
      .poll(() => sides.last().evaluate((element) => element === document.activeElement))
      .toBe(true);
    await page.context().close();
  });

  test('seen pixel for pixel it is the station’s own region, moved over by arrows', async () => {
    const page = await open(`?frame=${frame}`, { width: 640, height: 600 });
    await page.getByRole('button', { name: 'Closer', exact: true }).click();
    await page.locator('[data-testid="look-picture"][data-seen="closely"]').waitFor();
    const pan = page.getByRole('button', { name: /The part that is seen/ });
    for (let press = 0; press < 8; press++) await pan.press('ArrowLeft');
    for (let press = 0; press < 8; press++) await pan.press('ArrowUp');
    const own = sharp(await shown(page)).removeAlpha();
    const { width = 1, height = 1 } = await own.metadata();
    const address = `${station.ready.web}/api/v1/frames/${frame}/region`;
    const region = await fetch(`${address}?left=0&top=0&width=${width}&height=${height}&format=png`);
    const theirs = sharp(Buffer.from(await region.arrayBuffer())).removeAlpha();
    const [one, other] = [await own.raw().toBuffer(), await theirs.raw().toBuffer()];
    expect(one.length).toBe(other.length);
    let beyond = 0;
    for (let at = 0; at < one.length; at++) if (Math.abs((one[at] ?? 0) - (other[at] ?? 0)) > 1) beyond += 1;
    // One code (decision 23); see test/render/look-painter.test.ts for the few that half floats cost.
    expect(beyond / one.length).toBeLessThan(2e-4);
    await page.context().close();
  });

  test('without WebGL 2 a worker paints the same', async () => {
    const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
    await context.addInitScript(`{
      const own = HTMLCanvasElement.prototype.getContext;
      HTMLCanvasElement.prototype.getContext = function (kind, ...more) {
        return kind === 'webgl2' ? null : own.call(this, kind, ...more);
      };
    }`);
    const page = await context.newPage();
    await page.goto(`${station.ready.web}/look?frame=${frame}`);
    await page.locator('[data-testid="look-picture"][data-state="shown"][data-painter="plain"]').waitFor();
    const look = (await station.frame(frame)).look.id;
    const kept = lookList.parse(await (await fetch(`${station.ready.web}/api/v1/looks`)).json());
    const document = kept.looks.find(({ id }) => id === look)?.document ?? defaultLook;
    await expect.poll(() => likeness(page, document)).toBeLessThan(likeMax);
    await context.close();
  });

  test('the light is that of the whole original, whatever crop the frame is rendered with', async () => {
    const address = `${station.ready.web}/api/v1/frames/${frame}/scene`;
    const light = async (query: string): Promise<ReturnType<typeof readExr>> =>
      readExr(new Uint8Array(await (await fetch(`${address}?${query}`)).arrayBuffer()));
    const before = await light('width=256');
    expect(before?.widthPx).toBe(256);
    const crop = { across: 1, down: 1, size: 0.5, centreX: 0, centreY: 0 };
    const body = JSON.stringify({ ...defaultLook, title: 'Square', geometry: { crop } });
    const headers = { 'content-type': 'application/json' };
    const saved = await fetch(`${station.ready.web}/api/v1/looks`, { method: 'POST', headers, body });
    const { id } = lookShape.parse(await saved.json());
    const given = { method: 'POST', headers, body: JSON.stringify({ frames: [frame] }) };
    await fetch(`${station.ready.web}/api/v1/looks/${id}/use`, given);
    await eventually('the frame is rendered square', async () => {
      const { picture } = await station.frame(frame);
      return picture.state === 'rendered' && picture.width === picture.height;
    });
    const after = await light('width=256');
    expect([after?.widthPx, after?.heightPx]).toEqual([before?.widthPx, before?.heightPx]);
    // 0.5 megapixels are two tiles across.
    expect((await light('tile=1,1'))?.leftPx).toBe(512);
    expect((await fetch(`${address}?tile=9,0`)).status).toBe(400);
  });

  test('while the light of another frame is on its way, the picture is told to be that of the one before', async () => {
    const file = join(station.home, 'QMST0002.DNG');
    await writeFile(
      file,
      (await renderFrame({ sizeMegapixels: 0.5, shutterMs: Date.UTC(2026, 4, 1, 9) })).bytes,
    );
    expect((await curlUpload(station, file, '/DCIM/100SETSD/QMST0002.DNG')).code).toBe(0);
    const other = await eventually('the second frame is rendered', async () =>
      (await station.frames()).find(({ id, picture }) => id !== frame && picture.state === 'rendered'),
    );
    const page = await open(`?frame=${frame}`);
    let release: () => void = () => undefined;
    const held = new Promise<void>((done) => {
      release = done;
    });
    await page.route(`**/frames/${other.id}/scene**`, async (route) => {
      await held;
      await route.continue();
    });
    const picture = page.getByTestId('look-picture');
    await page.locator('.look-frame button:not([disabled])').click();
    await page.locator('.look-frame strong').getByText('QMST0002.DNG').waitFor();
    await expect
      .poll(() => truth(page).textContent())
      .toBe('Still the picture before; this one is on its way.');
    expect(await picture.getAttribute('data-frame-id')).toBe(frame);
    release();
    await expect.poll(() => picture.getAttribute('data-frame-id')).toBe(other.id);
    await expect.poll(() => truth(page).textContent()).toMatch(/^As delivered/);
    await page.context().close();
  });

  test('the station’s rendering is called off, and made after all', async () => {
    const page = await open(`?frame=${frame}`);
    let answer: () => void = () => undefined;
    const held = new Promise<void>((done) => {
      answer = done;
    });
    await page.route('**/try**', async (route) => {
      await held;
      await route.continue();
    });
    await openInstrument(page, 'grain');
    await knob(page, 'Grain').press('PageUp');
    const slip = page.getByTestId('look-working');
    const focused = () => page.evaluate(() => document.activeElement?.textContent ?? '');
    await slip.getByRole('button', { name: 'Call it off' }).press('Enter');
    await slip.getByRole('button', { name: 'Render it' }).waitFor();
    expect(await focused()).toBe('Render it');
    await expect.poll(() => truth(page).textContent()).toMatch(/grain.*called off/);
    answer();
    await slip.getByRole('button', { name: 'Render it' }).press('Enter');
    await page.getByTestId('look-try').waitFor();
    await slip.waitFor({ state: 'detached' });
    expect(await page.evaluate(() => document.activeElement?.className)).toBe('look-area');
    await page.context().close();
  });

  test('a picture that its camera finished says that it takes no look; a frame that is none is said to be none', async () => {
    const file = join(station.home, 'JPEG0001.JPG');
    await writeFile(file, await stillLifeJpeg({ place: 0.4, hue: 30, light: 1 }, 600, 400));
    expect((await curlUpload(station, file, '/DCIM/100SETSD/JPEG0001.JPG')).code).toBe(0);
    const finished = await eventually('the JPEG is shown', async () =>
      (await station.frames()).find(
        ({ name, picture }) => name === 'JPEG0001.JPG' && picture.state === 'rendered',
      ),
    );
    const page = await open(`?frame=${finished.id}`);
    expect(await truth(page).textContent()).toMatch(/looks are put on raws only/);
    await openInstrument(page, 'versions');
    await page.locator('.give-form').getByText('so no look is put on it').waitFor();
    expect(await page.getByLabel('this frame').count()).toBe(0);
    // Somebody chooses one all the same: the Set page says why it is not seen.
    const etag = { 'if-match': `"${(await station.frame(finished.id)).version}"` };
    const saved = await fetch(`${station.ready.web}/api/v1/looks`, {
      ...{ method: 'POST', headers: { 'content-type': 'application/json' } },
      body: JSON.stringify({ ...defaultLook, title: 'Chosen' }),
    });
    const { id: look } = lookShape.parse(await saved.json());
    const chosen = await fetch(`${station.ready.web}/api/v1/frames/${finished.id}`, {
      ...{ method: 'PATCH', headers: { 'content-type': 'application/json', ...etag } },
      body: JSON.stringify({ look }),
    });
    expect(chosen.status).toBe(200);
    await page.goto(station.ready.web);
    await page.locator(`.rail-frame[data-frame-id="${finished.id}"]`).click();
    await page.getByText(/The camera’s own JPEG, without “Chosen”: looks are put on raws only/).waitFor();
    const refused = await fetch(`${station.ready.web}/api/v1/frames/${finished.id}/try`, {
      ...{ method: 'POST', headers: { 'content-type': 'application/json' } },
      body: JSON.stringify(defaultLook),
    });
    expect(await refused.json()).toMatchObject({ status: 400, code: 'no-look' });
    await page.goto(`${station.ready.web}/look?frame=none-of-these`);
    await page.getByText('This frame is not known').waitFor();
    await page.context().close();
  });

  test.each([
    [1280, 800],
    [390, 844],
  ])('axe finds nothing with any instrument out, at %i x %i', async (width, height) => {
    const page = await open('', { width, height });
    for (const piece of await page.locator('.strip-piece').all()) {
      if ((await piece.getAttribute('aria-expanded')) !== 'true') await piece.click();
      expect(await axeFindings(page), String(await piece.textContent())).toEqual([]);
    }
    await page.context().close();
  });
});
