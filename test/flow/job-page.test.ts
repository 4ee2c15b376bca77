import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Frame, type Job, job as jobSchema } from '../../src/contract/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { axeFindings } from '../render/page/axe.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** A job made, filled, shot into and mended on the page, over the real station. */
describe.skipIf(!hasBrowser || !hasProgram('curl'))('the Job page over the real station', () => {
  let home: string;
  let station: RunningStation;
  let browser: Browser;
  let page: Page;

  beforeAll(async () => {
    home = await newHome();
    [station, browser] = await Promise.all([startStation(home), launchBrowser()]);
    page = await open();
  });

  afterAll(async () => {
    await browser.close();
    await station.stop();
    await removeHome(home);
  });

  const complaints: string[] = [];
  async function open(): Promise<Page> {
    const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
    const opened = await context.newPage();
    opened.on('pageerror', (error) => complaints.push(error.message));
    await opened.goto(`${station.ready.web}/#/job`);
    return opened;
  }

  async function job(code = 'QM-26'): Promise<Job> {
    return jobSchema.parse(await (await fetch(`${station.ready.web}/api/v1/jobs/${code}`)).json());
  }

  async function upload(name: string): Promise<Frame> {
    const file = join(home, name);
    await writeFile(file, name);
    expect((await curlUpload(station, file, `/${name}`)).code).toBe(0);
    return eventually(`${name} is listed`, async () =>
      (await station.frames()).find((frame) => frame.name === name),
    );
  }

  test('frames that come before there is a job wait in the tray', async () => {
    expect((await upload('EARLY001.TXT')).job).toBe('unsorted');
  });

  test('a job is made, given its shots and opened, and frames go to its first shot', async () => {
    await page.getByLabel('Code').fill('QM/26');
    await page.getByRole('button', { name: 'Make the job' }).click();
    await page.getByText('That cannot be the code of a job').waitFor();
    await page.getByLabel('Code').fill('QM-26');
    await page.getByLabel('Title').fill('Autumn catalogue');
    await page.getByLabel('Frames go to it at once').uncheck();
    await page.getByRole('button', { name: 'Make the job' }).click();
    await page.getByRole('heading', { name: 'Autumn catalogue' }).waitFor();
    // Typed on while the answer about the first shot is still on its way: its row comes by the events, before the answer.
    let pass = (): void => {};
    const passed = new Promise<void>((resolve) => {
      pass = resolve;
    });
    await page.route('**/api/v1/jobs/QM-26/shots', async (route) => {
      const response = await route.fetch();
      await passed;
      await route.fulfill({ response });
    });
    const name = page.getByLabel('Add a shot');
    const add = page.getByRole('button', { name: 'Add', exact: true });
    await name.fill('Mug');
    await add.click();
    await page.locator('.shot-row', { hasText: 'Mug' }).waitFor();
    await name.fill('Jug');
    const answered = page.waitForResponse('**/api/v1/jobs/QM-26/shots');
    pass();
    await answered;
    await page.unroute('**/api/v1/jobs/QM-26/shots');
    expect(await name.inputValue()).toBe('Jug');
    await add.click();
    await page.locator('.shot-row', { hasText: 'Jug' }).waitFor();
    await page.getByRole('button', { name: 'Open: frames go here' }).click();
    await page.getByText('Frames go to this job now.').waitFor();
    expect(await job()).toMatchObject({ state: 'open', currentShot: 'mug' });
    expect(await upload('MUG00001.TXT')).toMatchObject({ job: 'QM-26', shot: 'mug' });
    await page.locator('.shot-row', { hasText: 'Mug' }).getByText('1 frame').waitFor();
  });

  test('words and tolerances are taken when their field is left, and what cannot be is said beside it', async () => {
    await page.getByLabel('Client').fill('Quillmere Ceramics');
    await page.getByLabel('First day').fill('2026-10-02');
    await page.getByLabel('Last day').focus();
    await expect.poll(() => job()).toMatchObject({ from: '2026-10-02' });
    await page.getByLabel('Last day').fill('2026-10-01');
    await page.getByLabel('Notes').focus();
    await page.getByText('The last day lies before the first.').waitFor();
    await page.getByLabel('Last day').fill('2026-10-03');
    const sharp = page.locator('.tolerances').first().locator('li').first();
    await sharp.getByLabel('good up to').fill('1,5');
    await sharp.getByLabel('bad above').fill('1');
    await page.getByLabel('Notes').focus();
    await page.getByText('The second figure must not be below the first.').waitFor();
    await sharp.getByLabel('bad above').fill('3');
    // Two rows one after the other, quicker than the station answers.
    const burnt = page.locator('.tolerances').first().locator('li').nth(1);
    await burnt.getByLabel('good up to').fill('0.1');
    await burnt.getByLabel('bad above').fill('2');
    await burnt.getByLabel('bad above').press('Enter');
    await page.getByLabel('Deliveries').fill('web, print, web');
    await page.getByLabel('Names of delivered files').fill('{job}_{shot}_{counter}');
    await page.getByLabel('Notes').focus();
    await expect
      .poll(() => job())
      .toMatchObject({
        naming: '{job}_{shot}_{counter}',
        deliveries: ['web', 'print'],
        client: 'Quillmere Ceramics',
        from: '2026-10-02',
        to: '2026-10-03',
        tolerances: { edgeWidthPx: { good: 1.5, bad: 3 }, saturatedPercent: { good: 0.1, bad: 2 } },
      });
  });

  test('a list is looked at first: bad lines are named with why, and the rest is taken in', async () => {
    const list =
      'Shot;Description;Heroes;Price\nMug;With steam;1;9\nJug;;many;9\n;;1;9\nSaucer;On slate;2;4\n';
    const file = join(home, 'list.csv');
    await writeFile(file, list);
    await page.getByLabel('Take in a list').setInputFiles(file);
    const preview = page.getByRole('region', { name: 'What list.csv would do' });
    await preview.getByText('1 new, 1 changed, 0 as they are.').waitFor();
    await preview.getByText('Columns that say nothing here: “Price”.').waitFor();
    expect(await preview.locator('.bad-lines li').allTextContents()).toEqual([
      'Line 3 says “many” for heroes, which cannot be read; it may be: a whole number from 0 to 99.',
      'Line 4 names no shot.',
    ]);
    await preview.getByText('description: empty → “With steam”').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    expect((await job()).shots.map(({ name }) => name)).toEqual(['Mug', 'Jug']);
    await preview.getByRole('button', { name: 'Take in 2 shots' }).click();
    await page.getByText('2 shots were taken in. Undo takes it back.').waitFor();
    expect((await job()).shots.map(({ name, description }) => [name, description])).toEqual([
      ['Mug', 'With steam'],
      ['Saucer', 'On slate'],
      ['Jug', ''],
    ]);
  });

  test.each([
    ['no column of names', 'a,b\n1,2\n', 'The first line names no column “name”'],
    ['nothing in it', '', 'The file is empty'],
    ['no text', new Uint8Array([0, 1, 2, 3]), 'The file is no text that can be read'],
    ['of 100,000 lines', `name\n${'Cup\n'.repeat(100_000)}`, 'longer than 500 shots'],
    ['too large', new Uint8Array(8 * 1024 * 1024 + 1), 'larger than 8 MB'],
    ['JSON that is none', '{"shots":', 'no JSON that can be read', 'json'],
    ['JSON without a list', '{"list":[]}', 'There is no list “shots”', 'json'],
    ['JSON with too many heroes', '[{"name":"Mug","heroes":120}]', 'says “120” for heroes', 'json'],
    ['in an older encoding', new Uint8Array(Buffer.from('name\nKr\u00fcge\n', 'latin1')), 'was a guess'],
  ])(
    'a file with %s is answered with a sentence, and nothing is changed',
    async (_what, content, words, ending = 'csv') => {
      const before = await job();
      const file = join(home, `bad.${ending}`);
      await writeFile(file, content);
      await page.getByLabel('Take in a list').setInputFiles(file);
      await page.locator('.list-files').getByText(words).first().waitFor();
      expect(await job()).toEqual(before);
      expect(await page.getByRole('button', { name: 'Everything in it is here already.' }).count()).toBe(0);
      const leave = page.getByRole('button', { name: 'Leave it' });
      if (await leave.isVisible()) await leave.click();
    },
  );

  test('a list saved as JSON comes in again, with what was changed in it', async () => {
    const saved = await fetch(`${station.ready.web}/api/v1/jobs/QM-26/shots/export?format=json`);
    const file = join(home, 'shots.json');
    await writeFile(file, (await saved.text()).replace('On slate', 'On linen'));
    await page.getByLabel('Take in a list').setInputFiles(file);
    await page.getByText('0 new, 1 changed, 2 as they are.').waitFor();
    await page.getByText('description: “On slate” → “On linen”').waitFor();
    await page.getByRole('button', { name: 'Take in 1 shot' }).click();
    await page.getByText('1 shot was taken in. Undo takes it back.').waitFor();
    await expect.poll(async () => (await job()).shots[1]?.description).toBe('On linen');
  });

  test('shots are put in order by a step and by a drag', async () => {
    const names = async (): Promise<string[]> => (await job()).shots.map(({ name }) => name);
    await page.getByRole('button', { name: 'Saucer one up' }).click();
    await expect.poll(names).toEqual(['Saucer', 'Mug', 'Jug']);
    const boxOf = async (name: string) => {
      const box = await page.getByTitle(`Drag ${name} to another place`).boundingBox();
      if (box === null) throw new Error(`expected ${name} in the list`);
      return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    };
    await page.locator('#shots-of-job').scrollIntoViewIfNeeded();
    const [from, to] = [await boxOf('Saucer'), await boxOf('Jug')];
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(to.x, to.y, { steps: 5 });
    await page.mouse.up();
    await expect.poll(names).toEqual(['Mug', 'Jug', 'Saucer']);
  });

  test('two pages that write the same text: the later one is asked, and neither text is lost', async () => {
    const other = await open();
    await other.getByLabel('Place').waitFor();
    await page.getByLabel('Place').fill('Studio 2');
    await other.getByLabel('Place').fill('The yard');
    await other.getByLabel('Title').focus();
    await expect.poll(() => job()).toMatchObject({ place: 'The yard' });
    await page.getByLabel('Title').focus();
    await page.getByText('Meanwhile somebody else wrote “The yard”. Yours is still here.').waitFor();
    expect(await page.getByLabel('Place').inputValue()).toBe('Studio 2');
    await page.getByRole('button', { name: 'Put mine' }).click();
    await expect.poll(() => job()).toMatchObject({ place: 'Studio 2' });
    await expect.poll(() => other.getByLabel('Place').inputValue()).toBe('Studio 2');
    await other.close();
  });

  test('what is typed and not yet left is kept over the way back, a reload and another part of the page', async () => {
    const other = await open();
    let asked = 0;
    other.on('dialog', (dialog) => {
      if (dialog.type() === 'beforeunload') asked += 1;
      return dialog.accept();
    });
    const notes = other.getByLabel('Notes');
    await other.getByRole('link', { name: '← Set' }).click();
    await other.locator('.stop', { hasText: 'Mug' }).waitFor();
    await other.goBack();
    await notes.fill('Bring the turntable');
    await other.goForward();
    await expect.poll(() => job()).toMatchObject({ notes: 'Bring the turntable' });
    await other.goBack();
    await notes.fill('Bring two turntables');
    await other.reload();
    await expect.poll(() => job()).toMatchObject({ notes: 'Bring two turntables' });
    // What was refused is there again too.
    await other.getByLabel('Last day').fill('2026-09-01');
    await notes.focus();
    await other.getByText('The last day lies before the first.').waitFor();
    await other.getByRole('button', { name: 'New job' }).click();
    await other.getByLabel('Code').waitFor();
    await other.getByRole('button', { name: 'New job' }).click();
    await other.getByText('The last day lies before the first.').waitFor();
    expect(await other.getByLabel('Last day').inputValue()).toBe('2026-09-01');
    expect(await job()).toMatchObject({ to: '2026-10-03' });
    // A draft does not outlive its tab: before that goes, the browser asks.
    asked = 0;
    await other.close({ runBeforeUnload: true });
    await expect.poll(() => asked).toBe(1);
  });

  test('what is typed while the text before it is on its way is neither lost nor taken for somebody else’s', async () => {
    const other = await open();
    const notes = other.getByLabel('Notes');
    let pass = (): void => {};
    const passed = new Promise<void>((resolve) => {
      pass = resolve;
    });
    await other.route('**/api/v1/jobs/**', async (route) => {
      await passed;
      await route.continue();
    });
    await notes.fill('Bring tape');
    await other.getByLabel('Title').focus();
    await notes.fill('Bring tape and scissors');
    pass();
    await expect.poll(() => job()).toMatchObject({ notes: 'Bring tape' });
    await other.unroute('**/api/v1/jobs/**');
    expect(await notes.inputValue()).toBe('Bring tape and scissors');
    await other.getByLabel('Title').focus();
    await expect.poll(() => job()).toMatchObject({ notes: 'Bring tape and scissors' });
    expect(await notes.inputValue()).toBe('Bring tape and scissors');
    await other.close();
  });

  test('a shot with frames that is taken from the list keeps them, and undo brings it back', async () => {
    await page.getByRole('button', { name: 'Edit Mug' }).click();
    await page.getByText('What it has (1 frame) is kept and stays with it').waitFor();
    await page.getByRole('button', { name: 'Take from the list' }).click();
    await expect.poll(async () => (await job()).shots.map(({ name }) => name)).toEqual(['Jug', 'Saucer']);
    expect((await station.frames()).find(({ name }) => name === 'MUG00001.TXT')?.shot).toBe('mug');
    // Listed below, with the way back.
    await page.getByRole('button', { name: 'Bring back Mug' }).click();
    const listed = async () => (await job()).shots.map(({ name }) => name);
    await expect.poll(listed).toEqual(['Mug', 'Jug', 'Saucer']);
    await page.getByRole('heading', { name: 'Taken from the list' }).waitFor({ state: 'detached' });
    // Two steps back, then forward again: each is said.
    await page.getByRole('button', { name: 'Undo: brought Mug back to the list' }).click();
    await page.getByText('Taken back: brought Mug back to the list.').waitFor();
    await page.getByRole('button', { name: 'Undo: took Mug from the list' }).click();
    await page.getByText('Taken back: took Mug from the list.').waitFor();
    await expect.poll(listed).toEqual(['Mug', 'Jug', 'Saucer']);
    await page.getByRole('button', { name: 'Put it back' }).click();
    await page.getByText('Put back: took Mug from the list.').waitFor();
    await expect.poll(listed).toEqual(['Jug', 'Saucer']);
    await page.locator('h1').click();
    await page.keyboard.press('Control+z');
    await expect.poll(listed).toEqual(['Mug', 'Jug', 'Saucer']);
  });

  test('a frame is moved on the Set page and back by undo, and the tray goes into the job', async () => {
    const shotOf = async (name: string) =>
      (await station.frames()).find((frame) => frame.name === name)?.shot;
    await page.getByRole('link', { name: '← Set' }).click();
    await page.locator('.stop', { hasText: 'Mug' }).waitFor();
    await page.getByRole('button', { name: '1 frame in the tray' }).click();
    await page.getByRole('button', { name: 'Move 1 frame' }).click();
    await expect
      .poll(async () => (await station.frames()).map(({ job: code }) => code))
      .toEqual(['QM-26', 'QM-26']);
    // The card closes when its call is answered, which may be after the station has told everybody.
    await expect.poll(() => page.locator('dialog[open]').count()).toBe(0);
    await page.keyboard.press('End');
    await page.locator('.rail-frame[aria-current="true"]', { hasText: 'MUG00001' }).waitFor();
    await page.keyboard.press('g');
    await page.locator('dialog[open] button[data-digit="2"]').waitFor();
    await page.keyboard.press('2');
    await expect.poll(() => shotOf('MUG00001.TXT')).toBe('jug');
    await page.getByRole('button', { name: 'Undo: moved MUG00001 to Jug' }).waitFor();
    await page.keyboard.press('Control+z');
    await expect.poll(() => shotOf('MUG00001.TXT')).toBe('mug');
    expect(complaints).toEqual([]);
  });

  test('a job like an earlier one has its shots; a closed one is not changed until it is opened again', async () => {
    await page.goto(`${station.ready.web}/#/job`);
    await page.getByRole('button', { name: 'New job' }).click();
    await page.getByLabel('Code').fill('QM-27');
    await page.getByLabel('Like an earlier job').selectOption('QM-26');
    await page.getByRole('button', { name: 'Make the job' }).click();
    await page.locator('h1', { hasText: 'QM-27' }).waitFor();
    expect((await job('QM-27')).shots.map(({ name }) => name)).toEqual(['Mug', 'Jug', 'Saucer']);
    await page.getByRole('button', { name: 'Close the job' }).click();
    await page.getByText('Closed: finished').waitFor();
    expect(await page.getByLabel('Title').isDisabled()).toBe(true);
    // On the Set page a frame of a closed job keeps everything but its mark.
    await fetch(`${station.ready.web}/api/v1/jobs/QM-26`, {
      method: 'PATCH',
      headers: { 'content-type': 'application/json' },
      body: '{"state":"closed"}',
    });
    const other = await open();
    await other.goto(`${station.ready.web}/#/`);
    await other.locator('.rail-frame').first().waitFor();
    await other.keyboard.press('f');
    await other.getByText('Job QM-26 is closed: the mark can still be changed').waitFor();
    expect(await other.getByLabel('Belongs to').isDisabled()).toBe(true);
    await other.getByRole('radio', { name: 'Select' }).click();
    await expect.poll(async () => (await station.frames()).map(({ mark }) => mark)).toContain('select');
    expect(await axeFindings(other)).toEqual([]);
    await other.close();
    await page.getByRole('button', { name: 'Take up again, frames go elsewhere' }).click();
    await expect.poll(() => job('QM-27')).toMatchObject({ state: 'waiting' });
    await page.getByRole('button', { name: 'Close the job' }).click();
    await page.getByRole('button', { name: 'Open again' }).click();
    await expect.poll(() => job('QM-27')).toMatchObject({ state: 'open' });
  });
});
