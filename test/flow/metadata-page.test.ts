import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Job, job as jobSchema } from '../../src/contract/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { axeFindings } from '../render/page/axe.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** The words of a job's files, written on its page, kept for the client's next job, and told before a delivery. */
describe.skipIf(!hasBrowser || !hasProgram('curl'))('words for files over the real station', () => {
  let home: string;
  let station: RunningStation;
  let browser: Browser;
  let page: Page;

  beforeAll(async () => {
    home = await newHome();
    [station, browser] = await Promise.all([startStation(home), launchBrowser()]);
    await makeJob('QM-26', true);
    const file = join(home, 'MUG0001.TXT');
    await writeFile(file, 'a mug');
    expect((await curlUpload(station, file, '/MUG0001.TXT')).code).toBe(0);
    await eventually('the frame is listed', async () =>
      (await station.frames()).find(({ job }) => job === 'QM-26'),
    );
    const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
    page = await context.newPage();
    page.on('pageerror', (error) => complaints.push(error.message));
    await page.goto(`${station.ready.web}/#/job/QM-26`);
    await unfold();
  });

  afterAll(async () => {
    await browser.close();
    await station.stop();
    await removeHome(home);
  });

  const complaints: string[] = [];

  /** They are folded away when the page of a job is opened. */
  async function unfold(): Promise<void> {
    const write = page.getByRole('region', { name: 'Words in the files' }).getByRole('button', {
      name: /Write them|Read them/,
    });
    await write.click();
    await write.waitFor({ state: 'detached' });
  }

  async function makeJob(code: string, open: boolean): Promise<void> {
    const wish = { code, title: `Title of ${code}`, client: 'Quillmere', open };
    expect(await post('/api/v1/jobs', wish)).toBe(201);
    expect(await post(`/api/v1/jobs/${code}/shots`, { name: 'Mug' })).toBe(201);
    // The first shot was not there when the job was opened.
    if (!open) return;
    const [shot] = (await job(code)).shots;
    expect(await post(`/api/v1/jobs/${code}`, { currentShot: shot?.id }, 'PATCH')).toBe(200);
  }

  async function post(path: string, body: object, method = 'POST'): Promise<number> {
    const answer = await fetch(station.ready.web + path, {
      method,
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    return answer.status;
  }

  async function job(code: string): Promise<Job> {
    return jobSchema.parse(await (await fetch(`${station.ready.web}/api/v1/jobs/${code}`)).json());
  }

  const saidOf = async (code: string): Promise<unknown> => {
    const { metadata } = await job(code);
    return metadata === '' ? null : JSON.parse(metadata);
  };

  test('words are typed with the keyboard, and the file’s are told with their fields filled in', async () => {
    const words = page.getByRole('region', { name: 'Words in the files' });
    await words.getByLabel('Caption', { exact: true }).first().focus();
    await page.keyboard.type('{shot} for {client}');
    await page.keyboard.press('Tab');
    await expect.poll(() => saidOf('QM-26')).toMatchObject({ all: { caption: '{shot} for {client}' } });
    await words.getByLabel('Keywords').first().fill('mug, pottery');
    await page.keyboard.press('Enter');
    await words.getByLabel('Credit line').fill('A credit line that is longer than IIM');
    await page.keyboard.press('Enter');
    await words.getByText('Mug for Quillmere').waitFor();
    await words.getByText('Cut in the old field Credit').waitFor();
    await words.getByText('A credit line that is longer tha', { exact: true }).waitFor();
    await expect.poll(() => saidOf('QM-26')).toMatchObject({ all: { keywords: ['mug', 'pottery'] } });
  });

  test('a field that nobody knows is refused in words, and stays typed', async () => {
    const words = page.getByRole('region', { name: 'Words in the files' });
    const headline = words.getByLabel('Headline');
    await headline.fill('{nobody}');
    await headline.press('Enter');
    await words.getByText('in braces there can be').waitFor();
    expect(await headline.inputValue()).toBe('{nobody}');
    await headline.press('Escape');
  });

  test('a shot has words of its own, and the camera’s notes go along when they are ticked', async () => {
    const words = page.getByRole('region', { name: 'Words in the files' });
    await words.getByText('Of the shot Mug').click();
    await words.getByLabel('Alt text').fill('A blue mug');
    await words.getByLabel('Alt text').press('Enter');
    await words.getByLabel('Position').click();
    await expect
      .poll(() => saidOf('QM-26'))
      .toMatchObject({ shots: { Mug: { altText: 'A blue mug' } }, privateFields: ['position'] });
    await words.getByText('A blue mug').waitFor();
    expect(await axeFindings(page)).toEqual([]);
  });

  test('they are kept, offered to the client’s next job, used there in one act, and taken back', async () => {
    const words = page.getByRole('region', { name: 'Words in the files' });
    await words.getByLabel('Keep these words as').fill('Quillmere 2026');
    await words.getByRole('button', { name: 'Keep', exact: true }).click();
    await words.getByText('Kept as Quillmere 2026.').waitFor();
    await makeJob('QM-27', false);
    await page.goto(`${station.ready.web}/#/job/QM-27`);
    await page.getByRole('heading', { name: 'Title of QM-27' }).waitFor();
    await unfold();
    await expect.poll(() => words.getByLabel('Kept words').inputValue()).toBe('Quillmere 2026');
    await words.getByRole('button', { name: 'Use them here' }).click();
    await expect
      .poll(() => saidOf('QM-27'))
      .toMatchObject({ title: 'Quillmere 2026', privateFields: ['position'] });
    expect(await post('/api/v1/undo', {})).toBe(200);
    await expect.poll(() => saidOf('QM-27')).toBeNull();
  });

  test('kept words that are forgotten come back at a press', async () => {
    const words = page.getByRole('region', { name: 'Words in the files' });
    await words.getByRole('button', { name: 'Forget' }).click();
    await words.getByText('Quillmere 2026 is forgotten.').waitFor();
    await words.getByText('Nothing is kept yet').waitFor();
    await words.getByRole('button', { name: 'Bring it back' }).click();
    await words.getByText('Quillmere 2026 is kept again.').waitFor();
    await expect.poll(() => words.getByLabel('Kept words').inputValue()).toBe('Quillmere 2026');
    expect(await words.getByRole('button', { name: 'Bring it back' }).count()).toBe(0);
  });

  test('a file that is no sheet is told beside those that are', async () => {
    await writeFile(join(home, 'metadata/strange.json'), 'no JSON');
    await page.reload();
    await page.getByRole('heading', { name: 'Title of QM-27' }).waitFor();
    await unfold();
    const words = page.getByRole('region', { name: 'Words in the files' });
    await words.getByText('metadata/strange.json cannot be used: This is not a JSON document.').waitFor();
    await expect.poll(() => words.getByLabel('Kept words').inputValue()).toBe('Quillmere 2026');
  });

  test('a shot that gets another name keeps its words on the page', async () => {
    await page.goto(`${station.ready.web}/#/job/QM-26`);
    await page.getByRole('heading', { name: 'Title of QM-26' }).waitFor();
    await unfold();
    const [shot] = (await job('QM-26')).shots;
    expect(await post(`/api/v1/jobs/QM-26/shots/${shot?.id}`, { name: 'Jug' }, 'PATCH')).toBe(200);
    const words = page.getByRole('region', { name: 'Words in the files' });
    await words.getByText('Of the shot Jug').click();
    await expect.poll(() => words.getByLabel('Alt text').inputValue()).toBe('A blue mug');
    expect(await words.getByText('Words are kept for shots').count()).toBe(0);
  });

  test('the words of a closed job are read, tried on a frame and kept for another, and not changed', async () => {
    expect(await post('/api/v1/jobs/QM-26', { state: 'closed' }, 'PATCH')).toBe(200);
    await page.reload();
    await page.getByRole('heading', { name: 'Title of QM-26' }).waitFor();
    const words = page.getByRole('region', { name: 'Words in the files' });
    await words.getByRole('button', { name: 'Read them' }).click();
    const caption = words.getByLabel('Caption', { exact: true }).first();
    await expect.poll(() => caption.inputValue()).toBe('{shot} for {client}');
    expect(await caption.isDisabled()).toBe(true);
    expect(await words.getByRole('button', { name: 'Use them here' }).isDisabled()).toBe(true);
    expect(await words.getByLabel('Frame', { exact: true }).isEnabled()).toBe(true);
    await words.getByText('Jug for Quillmere').waitFor();
    await words.getByLabel('Keep these words as').fill('From a closed job');
    await words.getByRole('button', { name: 'Keep', exact: true }).click();
    await words.getByText('Kept as From a closed job.').waitFor();
    expect(await axeFindings(page)).toEqual([]);
  });

  test('nothing broke in the page', () => expect(complaints).toEqual([]));
});
