import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Frame, type Job, job as jobSchema } from '../../src/contract/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { axeFindings } from '../render/page/axe.ts';
import { stillLifeJpeg } from '../render/page/still-life.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** A choice made on the Sheet page from the first mark to the client's screen, with the keyboard alone, over the real station. */
describe.skipIf(!hasBrowser || !hasProgram('curl'))('the Sheet page over the real station', () => {
  let home: string;
  let station: RunningStation;
  let browser: Browser;
  let context: BrowserContext;
  let page: Page;
  const complaints: string[] = [];

  beforeAll(async () => {
    home = await newHome();
    [station, browser] = await Promise.all([startStation(home), launchBrowser()]);
    context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
    page = await open('#/sheet');
  });

  afterAll(async () => {
    await browser.close();
    await station.stop();
    await removeHome(home);
  });

  async function open(hash: string): Promise<Page> {
    const opened = await context.newPage();
    opened.on('pageerror', (error) => complaints.push(error.message));
    opened.on('console', (line) => {
      if (line.type() === 'error' && /Content Security Policy|Uncaught/.test(line.text()))
        complaints.push(line.text());
    });
    await opened.goto(`${station.ready.web}/${hash}`);
    return opened;
  }

  async function call(method: string, path: string, body: object): Promise<void> {
    const answer = await fetch(`${station.ready.web}${path}`, {
      method,
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${await answer.text()}`);
  }

  async function upload(name: string, place: number): Promise<Frame> {
    const file = join(home, name);
    await writeFile(file, await stillLifeJpeg({ place, hue: 30 + place * 200, light: 0.9 }, 900, 600));
    expect((await curlUpload(station, file, `/${name}`)).code).toBe(0);
    return eventually(
      `${name} is judged`,
      async () =>
        (await station.frames()).find((frame) => frame.name === name && frame.times.judged !== null),
      90_000,
    );
  }

  async function marks(): Promise<Record<string, string>> {
    const frames = await station.frames();
    return Object.fromEntries(frames.map(({ name, mark }) => [name.slice(4, 8), mark]));
  }

  async function orderOf(shot: string): Promise<string[]> {
    const answer: Job = jobSchema.parse(await (await fetch(`${station.ready.web}/api/v1/jobs/QM-26`)).json());
    const names = new Map((await station.frames()).map(({ id, name }) => [id, name.slice(4, 8)]));
    return (answer.shots.find(({ id }) => id === shot)?.order ?? []).map((id) => names.get(id) ?? id);
  }

  const cell = (counter: string) => page.locator(`.sheet-cell[data-part="frame"]`, { hasText: counter });
  const focused = (): Promise<string> =>
    page.evaluate(() => document.activeElement?.querySelector('.sheet-name')?.textContent ?? '');

  test('a sheet without frames says what to do first, and nothing on it is a barrier', async () => {
    await page.getByText('No frame of this job yet.').waitFor();
    expect(await axeFindings(page)).toEqual([]);
  });

  test('frames lie down under their shot as they come in', async () => {
    await call('POST', '/api/v1/jobs', { code: 'QM-26', title: 'Autumn catalogue', open: true });
    for (const name of ['Mug', 'Jug']) await call('POST', '/api/v1/jobs/QM-26/shots', { name });
    for (const [index, counter] of ['0001', '0002', '0003', '0004'].entries())
      await upload(`QMST${counter}.JPG`, index / 4);
    await call('PATCH', '/api/v1/jobs/QM-26', { currentShot: 'jug' });
    await upload('QMST0005.JPG', 0.9);
    const mug = page.getByRole('region', { name: 'Mug', exact: true });
    await mug.getByText('4 frames').waitFor();
    await expect.poll(() => mug.locator('[data-part="frame"]').count()).toBe(4);
    await page.getByRole('region', { name: 'Jug', exact: true }).getByText('1 frame').waitFor();
  });

  test('with the keys alone: one is made the hero, a range is marked, one more is taken in hand', async () => {
    await page.keyboard.press('Tab');
    for (let stops = 0; stops < 40 && (await focused()) === ''; stops += 1) await page.keyboard.press('Tab');
    expect(await focused()).toBe('0001');
    await page.keyboard.press('h');
    await expect.poll(marks).toMatchObject({ '0001': 'hero' });
    await page.locator('.sheet-cell[data-part="hero"]').waitFor();
    await page.keyboard.press('ArrowRight');
    await expect.poll(focused).toBe('0002');
    await page.keyboard.press('Shift+ArrowRight');
    await expect.poll(focused).toBe('0003');
    await page.getByText('2 in hand').waitFor();
    await page.keyboard.press('s');
    await expect.poll(marks).toMatchObject({ '0002': 'select', '0003': 'select', '0004': 'none' });
    await page.keyboard.press('ArrowRight');
    await expect.poll(focused).toBe('0004');
    await page.keyboard.press('o');
    await expect.poll(marks).toMatchObject({ '0004': 'out' });
    // The next shot is below.
    await page.keyboard.press('ArrowRight');
    await expect.poll(focused).toBe('0005');
    await page.keyboard.press('a');
    await expect.poll(marks).toMatchObject({ '0005': 'alternate' });
    await cell('0005').and(page.locator('[data-mark="alternate"]')).waitFor();
  });

  test('what was done is taken back and put back, a range in one go', async () => {
    for (const left of [{ '0005': 'none' }, { '0004': 'none' }, { '0002': 'none', '0003': 'none' }]) {
      await page.keyboard.press('Control+z');
      await expect.poll(marks).toMatchObject(left);
    }
    await page.keyboard.press('Control+Shift+z');
    await expect.poll(marks).toMatchObject({ '0002': 'select', '0003': 'select' });
  });

  test('the selects are put in order, which the station keeps, and undo gives it back', async () => {
    await page.keyboard.press('Home');
    await expect.poll(focused).toBe('0001');
    await page.keyboard.press('ArrowRight');
    await expect.poll(focused).toBe('0002');
    const selects = page.locator('.sheet-cell[data-part="select"] .sheet-name');
    await expect.poll(() => selects.allTextContents()).toEqual(['0002', '0003']);
    await page.keyboard.press('Alt+ArrowRight');
    await expect.poll(() => selects.allTextContents()).toEqual(['0003', '0002']);
    expect(await orderOf('mug')).toEqual(['0001', '0003', '0002']);
    await page.getByRole('button', { name: 'Undo: put the chosen frames of Mug in order' }).waitFor();
    await page.keyboard.press('Control+z');
    await expect.poll(() => selects.allTextContents()).toEqual(['0002', '0003']);
    expect(await orderOf('mug')).toEqual([]);
  });

  test('by hand: a select is dragged before another, and a click with Ctrl or Shift takes more', async () => {
    const selects = page.locator('.sheet-cell[data-part="select"]');
    await selects.nth(1).dragTo(selects.nth(0));
    await expect.poll(() => orderOf('mug')).toEqual(['0001', '0003', '0002']);
    await cell('0001').click();
    await cell('0004').click({ modifiers: ['Control'] });
    await page.getByText('2 in hand').waitFor();
    await cell('0001').click();
    await cell('0003').click({ modifiers: ['Shift'] });
    await page.getByText('3 in hand').waitFor();
    expect(await axeFindings(page)).toEqual([]);
  });

  test('two are compared under one zoom, and marked there', async () => {
    const second = (await station.frames()).find(({ name }) => name === 'QMST0002.JPG');
    await call('POST', `/api/v1/frames/${second?.id}/remarks`, {
      id: 'remark-0001',
      name: 'Somebody',
      point: { x: 0.4, y: 0.5 },
      text: 'The handle to the left, please',
    });
    await cell('0002').locator('.sheet-pins', { hasText: '1' }).waitFor();
    await page.keyboard.press('Home');
    await expect.poll(focused).toBe('0001');
    await page.keyboard.press('ArrowRight');
    await expect.poll(focused).toBe('0002');
    await page.keyboard.press('Shift+ArrowRight');
    await page.getByText('2 in hand').waitFor();
    await page.keyboard.press('Enter');
    const compared = page.getByRole('dialog', { name: 'Compare' });
    const pictures = compared.getByTestId('picture');
    await expect.poll(() => pictures.count()).toBe(2);
    await expect
      .poll(() => pictures.evaluateAll((all) => all.map((each) => each.dataset.state)))
      .toEqual(['rendered', 'rendered']);
    expect(await axeFindings(page)).toEqual([]);
    await compared.locator('.remark-pins li', { hasText: '1' }).waitFor();
    await page.keyboard.press('p');
    const zooms = () => pictures.evaluateAll((all) => all.map((each) => each.dataset.zoom));
    await expect.poll(zooms).toEqual(['1', '1']);
    // The second leads now, and the first follows it back to the whole.
    await page.keyboard.press('2');
    await compared.locator('[data-active="true"]', { hasText: 'QMST0003.JPG' }).waitFor();
    await page.keyboard.press('-');
    await expect
      .poll(async () => {
        const [one, other] = await zooms();
        return one === other && one !== '1';
      })
      .toBe(true);
    await page.keyboard.press('h');
    await expect.poll(marks).toMatchObject({ '0002': 'select', '0003': 'hero' });
    await page.keyboard.press('l');
    await compared.getByRole('button', { name: 'Sharp', pressed: true }).waitFor();
    await expect.poll(() => compared.locator('.laid[data-laid="sharp"]').count()).toBe(2);
    await page.keyboard.press('Escape');
    await compared.waitFor({ state: 'detached' });
  });

  test('who marks several is told which of them somebody else marked meanwhile; the others are marked', async () => {
    const fourth = (await station.frames()).find(({ name }) => name === 'QMST0004.JPG');
    // The other is first by a moment: as the call is under way.
    await page.route(
      '**/api/v1/marks',
      async (route) => {
        await call('PATCH', `/api/v1/frames/${fourth?.id}`, { mark: 'out' });
        await route.continue();
      },
      { times: 1 },
    );
    await cell('0004').click();
    await cell('0005').click({ modifiers: ['Control'] });
    await page.getByText('2 in hand').waitFor();
    await page.keyboard.press('a');
    const said = page.locator('.sheet-said');
    await said.getByText('these were left as they are: QMST0004.JPG (Out)').waitFor();
    expect(await marks()).toMatchObject({ '0004': 'out', '0005': 'alternate' });
    expect(await axeFindings(page)).toEqual([]);
    // With open eyes it is changed.
    await cell('0004').and(page.locator('[data-mark="out"]')).waitFor();
    await page.keyboard.press('a');
    await expect.poll(marks).toMatchObject({ '0004': 'alternate', '0005': 'alternate' });
    await said.getByText('left as they are').waitFor({ state: 'detached' });
    // A mark that all have is taken away: it is as it is drawn that counts.
    for (const counter of ['0004', '0005'])
      await cell(counter).and(page.locator('[data-mark="alternate"]')).waitFor();
    await page.keyboard.press('a');
    await expect.poll(marks).toMatchObject({ '0004': 'none', '0005': 'none' });
  });

  test('a mark without an answer is not said to be refused, and trying again does not take it away', async () => {
    let goOn = (): void => {};
    const held = new Promise<void>((done) => {
      goOn = done;
    });
    // The line is cut behind the call, and the events come later still.
    await page.route('**/api/v1/marks', (route) => route.abort('connectionreset'), { times: 1 });
    await cell('0005').click();
    await page.keyboard.press('a');
    const said = page.locator('.sheet-said');
    await said.getByText('it is not known yet whether it took that').waitFor();
    await page.route(
      '**/api/v1/marks',
      async (route) => {
        expect(route.request().postDataJSON()).toMatchObject({ mark: 'alternate' });
        await held;
        await route.continue();
      },
      { times: 1 },
    );
    // It went through all the same: the page is shown it, and one who tries again means the same.
    await page.keyboard.press('a');
    goOn();
    await expect.poll(marks).toMatchObject({ '0005': 'alternate' });
    await said.getByText('not known yet').waitFor({ state: 'detached' });
    await cell('0005').and(page.locator('[data-mark="alternate"]')).waitFor();
    await page.keyboard.press('a');
    await expect.poll(marks).toMatchObject({ '0005': 'none' });
  });

  test('an act of another page of this station is told as that beside Undo', async () => {
    const other = await open('#/sheet');
    const otherCell = other.locator('.sheet-cell[data-part="frame"]', { hasText: '0005' });
    await otherCell.click();
    await other.keyboard.press('a');
    await page.getByRole('button', { name: 'marked QMST0005 alternate (on another screen)' }).waitFor();
    await other.getByRole('button', { name: /^Undo: marked QMST0005 alternate$/ }).waitFor();
    await page.bringToFront();
    await page.keyboard.press('Control+z');
    await expect.poll(marks).toMatchObject({ '0005': 'none' });
    await other.close();
  });

  test('calls that are parts of one act are taken back in one go, and no part comes after that', async () => {
    const ids = (await station.frames()).filter(({ mark }) => mark === 'none').map(({ id }) => id);
    expect(ids.length).toBe(2);
    const before = await marks();
    for (const id of ids)
      await call('POST', '/api/v1/marks', { frames: [id], mark: 'out', act: 'one-act-0001' });
    await call('POST', '/api/v1/undo', {});
    expect(await marks()).toEqual(before);
    await expect(
      call('POST', '/api/v1/marks', { frames: ids, mark: 'out', act: 'one-act-0001' }),
    ).rejects.toThrow('act-taken-back');
  });

  test('so are moves to a shot that come in parts', async () => {
    const before = (await station.frames()).map(({ id, shot }) => ({ id, shot }));
    const ofMug = before.filter(({ shot }) => shot === 'mug').map(({ id }) => id);
    expect(ofMug.length).toBe(4);
    const part = (frames: readonly string[]): Promise<void> =>
      call('POST', '/api/v1/jobs/QM-26/frames', { frames, shot: 'jug', act: 'one-move-0001' });
    for (const id of ofMug) await part([id]);
    await page.getByRole('button', { name: 'Undo: moved 4 frames to Jug' }).waitFor();
    await call('POST', '/api/v1/undo', {});
    expect((await station.frames()).map(({ id, shot }) => ({ id, shot }))).toEqual(before);
    await expect(part(ofMug)).rejects.toThrow('act-taken-back');
  });

  test('frames go to another shot from here, as one act that is taken back', async () => {
    const mug = page.getByRole('region', { name: 'Mug', exact: true });
    const jug = page.getByRole('region', { name: 'Jug', exact: true });
    await cell('0001').click();
    await cell('0002').click({ modifiers: ['Control'] });
    await page.getByText('2 in hand').waitFor();
    await page.getByLabel('To a shot').selectOption({ label: 'Jug' });
    await expect.poll(() => jug.locator('[data-part="frame"]').count()).toBe(3);
    await page.getByRole('button', { name: 'Undo: moved 2 frames to Jug', exact: true }).waitFor();
    await page.keyboard.press('Control+z');
    await expect.poll(() => mug.locator('[data-part="frame"]').count()).toBe(4);
  });

  test('over the frames of no shot stands why they are there, and what was taken back is told', async () => {
    await cell('0001').click();
    await page.getByText('1 in hand').waitFor();
    await page.getByLabel('To a shot').selectOption({ label: 'of no shot' });
    const rest = page.getByRole('region', { name: 'of no shot', exact: true });
    await rest.getByText('1 put here by hand. Take it in hand and choose “To a shot” below.').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await page.getByRole('button', { name: /^Undo: took QMST0001 out of its shot/ }).click();
    await rest.waitFor({ state: 'detached' });
    await page.getByText('Who did what').click();
    await page.getByText(/took QMST0001 out of its shot \(taken back .* by the operator\)/).waitFor();
    await page.getByText('Who did what').click();
  });

  test('one that is looked at gives way to the next, and the way back leads to the sheet', async () => {
    await cell('0001').dblclick();
    const looked = page.getByRole('dialog', { name: 'Look closely' });
    await looked.getByText('QMST0001.JPG').waitFor();
    await page.keyboard.press('PageDown');
    await looked.getByText('QMST0002.JPG').waitFor();
    await looked.getByRole('button', { name: 'Frame before' }).click();
    await looked.getByText('QMST0001.JPG').waitFor();
    await page.goBack();
    await looked.waitFor({ state: 'detached' });
    expect(new URL(page.url()).hash).toBe('#/sheet');
    await page.getByText('1 in hand').waitFor();
  });

  test('a job that nobody made is told as that', async () => {
    const nowhere = await open('#/sheet/NOPE');
    await nowhere.getByText('There is no job NOPE.').waitFor();
    await nowhere.close();
    await page.bringToFront();
  });

  test('only what is asked for is shown, and what is hidden is not marked', async () => {
    await page.getByLabel('Mark', { exact: true }).selectOption({ label: 'Hero' });
    await expect.poll(() => page.locator('[data-part="frame"]').count()).toBe(2);
    await page.getByLabel('Words').fill('0003');
    await expect.poll(() => page.locator('[data-part="frame"]').count()).toBe(1);
    await page.getByLabel('Words').fill('nothing');
    await page.getByText('No frame of this job is like that.').waitFor();
    await page.getByRole('button', { name: 'Show everything' }).click();
    await expect.poll(() => page.locator('[data-part="frame"]').count()).toBe(5);
  });

  test('the client sees the newest of the shot, or what the Sheet hands over, without a verdict', async () => {
    const client = await open('#/client');
    const shown = () => client.getByTestId('picture').getAttribute('aria-label');
    await expect.poll(shown).toBe('QMST0005.JPG');
    expect(await client.locator('.verdict-shape').count()).toBe(0);
    expect(await axeFindings(client)).toEqual([]);
    await page.bringToFront();
    await cell('0001').click();
    await page.keyboard.press('c');
    await expect.poll(shown).toBe('QMST0001.JPG');
    await client.bringToFront();
    await client.getByLabel('Crop').selectOption('1 : 1');
    await client.locator('.mask-shade').waitFor();
    await client.getByRole('button', { name: 'Follow the newest' }).click();
    await expect.poll(shown).toBe('QMST0005.JPG');
    await client.close();
  });

  test('the contact sheet is printed with every picture, under its shots', async () => {
    await page.bringToFront();
    await page.getByRole('button', { name: 'Let go' }).click();
    await page.getByRole('button', { name: 'Print', exact: true }).click();
    const print = page.getByRole('button', { name: 'Print it' });
    await expect.poll(() => print.isEnabled()).toBe(true);
    expect(await page.locator('.contact-frame').count()).toBe(5);
    expect(await axeFindings(page)).toEqual([]);
    const paper = await page.pdf({ format: 'A4' });
    // Each sheet of paper is an object of type Page (ISO 32000-1, 7.7.3.3).
    expect(paper.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length).toBeGreaterThan(0);
    await page.getByRole('button', { name: 'Back to the sheet' }).click();
    await page.getByRole('region', { name: 'Mug', exact: true }).waitFor();
    // The sheet that is there again hears the hand as the one before.
    await cell('0003').click();
    await page.getByText('1 in hand').waitFor();
    await cell('0004').click({ modifiers: ['Control'] });
    await page.getByText('2 in hand').waitFor();
    // What is in hand and hidden by what is asked for is not what is printed: all that is shown is.
    await page.getByLabel('Words').fill('0001');
    await expect.poll(() => page.locator('[data-part="frame"]').count()).toBe(1);
    await page.getByRole('button', { name: 'Print', exact: true }).click();
    await expect.poll(() => page.locator('.contact-frame').count()).toBe(1);
    // A client needs no verdicts on paper.
    await page.locator('.contact-frame .verdict-shape').first().waitFor();
    await page.getByLabel('For the client').check();
    await expect.poll(() => page.locator('.contact-frame .verdict-shape').count()).toBe(0);
    await page.keyboard.press('Escape');
    await page.getByRole('region', { name: 'Mug', exact: true }).waitFor();
    expect(complaints).toEqual([]);
  });
});
