import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import type { ActEntry } from '../../../src/contract/index.ts';
import { sampleJob } from '../../../src/contract/testing/sample-job.ts';
import { sampleFrame, sampleStation } from '../../../src/page/testing/sample-frame.ts';
import { axeFindings } from './axe.ts';
import type { FakeStation } from './fake-station.ts';
import { stage } from './stage.ts';

const { open } = stage();

/** Three shots, the second current; a frame of each of the first two. */
function pottery(fake: FakeStation): void {
  const job = sampleJob({
    code: 'kiln-07',
    title: 'Stoneware',
    state: 'open',
    currentShot: 'jug',
    shots: [
      { id: 'mug', name: 'Mug' },
      { id: 'jug', name: 'Jug' },
      { id: 'bowl', name: 'Bowl' },
    ],
  });
  fake.jobs = [job];
  fake.station = sampleStation({ job });
  fake.put(sampleFrame('a', 0, { job: 'kiln-07', shot: 'mug', mark: 'hero' }));
  fake.put(sampleFrame('b', 20, { job: 'kiln-07', shot: 'jug' }));
}

const stops = (page: Page) => page.locator('.stop').allInnerTexts();
const moved: ActEntry = {
  id: 'act-1',
  at: '2031-05-06T12:00:00.000Z',
  by: 'operator',
  screen: null,
  what: { code: 'job.frame-to-shot', args: { name: 'b.DNG', shot: 'Bowl' } },
};
const older: ActEntry = {
  ...moved,
  id: 'act-0',
  at: '2031-05-06T11:00:00.000Z',
  what: { code: 'job.shot-current', args: { job: 'kiln-07', shot: 'Jug' } },
};

test('each station says what is there, and the current one is the job’s, not the newest frame’s', async () => {
  const { page, station } = await open(pottery);
  await page.locator('.rail-frame').first().waitFor();
  expect((await stops(page)).map((text) => text.split('\n'))).toEqual([
    ['Mug', '1 frame, hero'],
    ['Jug', '1 frame'],
    ['Bowl', 'not yet'],
  ]);
  const current = page.locator('.stop[aria-current="step"]');
  expect(await current.getAttribute('data-shot-id')).toBe('jug');
  await page.keyboard.press('n');
  await page.locator('.stop[data-shot-id="bowl"][aria-current="step"]').waitFor();
  expect(await page.getByRole('button', { name: 'Next shot' }).isDisabled()).toBe(true);
  await page.getByRole('button', { name: 'Shot before: Jug' }).click();
  await page.locator('.stop[data-shot-id="jug"][aria-current="step"]').waitFor();
  expect(station.patches).toEqual([{ currentShot: 'bowl' }, { currentShot: 'jug' }]);
});

test('a long title ends before the line of shots', async () => {
  const title = 'Autumn catalogue of stoneware and glazes, second part, with the group pictures';
  const { page } = await open((fake) => {
    pottery(fake);
    fake.jobs = (fake.jobs ?? []).map((job) => ({ ...job, title }));
  });
  await page.getByRole('link', { name: title }).waitFor();
  const seen = await page.locator('.job strong').boundingBox();
  const beside = await page.locator('.step-shot').first().boundingBox();
  expect((seen?.x ?? 0) + (seen?.width ?? 9999)).toBeLessThanOrEqual(beside?.x ?? 0);
});

test('a frame is dragged from the rail onto a station, and a drag let go elsewhere or ended by Escape moves nothing', async () => {
  const { page, station } = await open(pottery);
  const frame = page.locator('.rail-frame[data-frame-id="a"]');
  await frame.waitFor();
  const middleOf = async (selector: string) => {
    const box = await page.locator(selector).boundingBox();
    if (box === null) throw new Error(`expected ${selector} on the page`);
    return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  };
  const take = async () => {
    const from = await middleOf('.rail-frame[data-frame-id="a"]');
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    const to = await middleOf('.stop[data-shot-id="bowl"]');
    await page.mouse.move(to.x, to.y, { steps: 4 });
    await page.locator('.stop[data-shot-id="bowl"][data-over="true"]').waitFor();
  };
  await take();
  await page.keyboard.press('Escape');
  await page.mouse.up();
  await take();
  await page.mouse.move(700, 500);
  await page.locator('.stop[data-over="true"]').waitFor({ state: 'detached' });
  await page.mouse.up();
  expect(station.patches).toEqual([]);
  // A drag is no click: the page still follows the newest.
  expect(await page.locator('.rail-frame[aria-current="true"]').getAttribute('data-frame-id')).toBe('b');
  await take();
  await page.mouse.up();
  await page.locator('.stop[data-shot-id="bowl"]', { hasText: '1 frame' }).waitFor();
  expect(station.patches).toEqual([{ shot: 'bowl' }]);
});

test('the shown frame is moved by two keys', async () => {
  const { page, station } = await open(pottery);
  await page.locator('.rail-frame').first().waitFor();
  await page.keyboard.press('g');
  await page.getByRole('heading', { name: 'b.DNG goes to' }).waitFor();
  await page.keyboard.press('3');
  await page.locator('dialog[open]').waitFor({ state: 'detached' });
  expect(station.patches).toEqual([{ shot: 'bowl' }]);
});

test('what was done last is named with the way back, by click and by Ctrl Z; what was done before is not', async () => {
  const { page, station } = await open((fake) => {
    pottery(fake);
    fake.acts = [older];
  });
  await page.locator('.rail-frame').first().waitFor();
  await page.getByRole('button', { name: 'Undo', exact: true }).and(page.locator(':enabled')).waitFor();
  expect(await page.locator('.undo-slip').count()).toBe(0);
  station.acts = [moved, older];
  station.change('b', { shot: 'bowl' });
  station.tell({ type: 'frame', change: 'moved', frame: station.frame('b') });
  await page.getByRole('button', { name: 'Undo: moved b to Bowl' }).click();
  await expect.poll(() => station.undone).toEqual([moved.id]);
  await page.getByText('Taken back: moved b to Bowl (by a command).').waitFor();
  // What was done before is known again, and is no news.
  station.change('b', { shot: 'jug' });
  station.tell({ type: 'frame', change: 'chosen', frame: station.frame('b') });
  expect(await page.locator('.undo-slip').textContent()).toMatch(/^Taken back/);
  await page.keyboard.press('Control+z');
  await expect.poll(() => station.undone).toEqual([moved.id, null]);
  await page.getByText('Taken back: went on to Jug (by a command).').waitFor();
  // The way back from that, by key and by click.
  await page.keyboard.press('Control+Shift+z');
  await page.getByText('Put back: went on to Jug.').waitFor();
  await page.keyboard.press('Control+z');
  await page.getByRole('button', { name: 'Put it back' }).click();
  await page.getByText('Put back: went on to Jug.').waitFor();
  expect(station.acts).toEqual([older]);
  await page.getByRole('button', { name: 'Leave it so' }).click();
  await page.locator('.undo-slip').waitFor({ state: 'detached' });
});

test('what the station refuses is said on the page, in its words', async () => {
  const { page, station } = await open(pottery);
  await page.locator('.rail-frame').first().waitFor();
  station.refuse = {
    status: 409,
    code: 'job-finished',
    title: 'The job is closed',
    cure: 'Open it again first.',
  };
  await page.keyboard.press('n');
  await page.getByText('The job is closed. Open it again first.').waitFor();
});

test('with no job open the page says where frames go, and the tray’s frames are moved into a job in one go', async () => {
  const { page, station } = await open((fake) => {
    fake.jobs = [sampleJob({ code: 'kiln-07', title: 'Stoneware', shots: [{ id: 'mug', name: 'Mug' }] })];
    for (const [index, id] of ['a', 'b', 'c'].entries())
      fake.put(sampleFrame(id, index * 9, { job: 'unsorted' }));
  });
  await page.getByText('No job is open: frames go to the tray “unsorted”.').waitFor();
  expect(await page.getByRole('link', { name: 'Make or open a job' }).getAttribute('href')).toBe('#/job');
  await page.getByRole('button', { name: '3 frames in the tray' }).click();
  await page.getByRole('checkbox', { name: /^b\.DNG/ }).uncheck();
  await page.getByLabel('To the shot').selectOption('mug');
  await page.getByRole('button', { name: 'Move 2 frames' }).click();
  await page.locator('dialog[open]').waitFor({ state: 'detached' });
  expect(station.patches).toEqual([{ frames: ['a', 'c'], shot: 'mug', act: expect.any(String) }]);
});

test('axe finds nothing on the cards of a frame, a shot, a move and the tray', async () => {
  const { page } = await open((fake) => {
    pottery(fake);
    fake.put(sampleFrame('t', 5, { job: 'unsorted' }));
  });
  const card = page.locator('dialog[open]');
  const opened: readonly (() => Promise<void>)[] = [
    () => page.getByRole('button', { name: 'More' }).click(),
    () => page.locator('.stop button').first().click(),
    () => page.keyboard.press('g'),
    () => page.getByRole('button', { name: '1 frame in the tray' }).click(),
  ];
  await page.locator('.rail-frame').first().waitFor();
  for (const openCard of opened) {
    await openCard();
    await card.waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await card.waitFor({ state: 'detached' });
  }
});

test('the card of a frame says what it is for, makes it the reference, and takes a doubt upon oneself', async () => {
  const { page, station } = await open(pottery);
  await page.locator('.rail-frame').first().waitFor();
  await page.keyboard.press('f');
  const card = page.locator('dialog[open]');
  await card.getByLabel('colour target or grey card').click();
  await card.getByRole('button', { name: 'This is the reference' }).click();
  await card.getByRole('button', { name: 'New baseline from here' }).click();
  await card.getByText('Accept it as it is Sharp').click();
  await card.getByLabel('Your name').first().fill('Ada');
  await card.getByLabel('Why').first().fill('soft on purpose');
  await card.getByRole('button', { name: 'Accept', exact: true }).first().click();
  await expect
    .poll(() => station.patches)
    .toEqual([
      { purpose: 'target' },
      { reference: 'b' },
      { frame: 'b' },
      { name: 'Ada', reason: 'soft on purpose', seen: 'unknown' },
    ]);
});
