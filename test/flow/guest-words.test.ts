import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { agreementList, type Frame, frame as frameShape } from '../../src/contract/index.ts';
import { hasBrowser, launchBrowser } from '../chromium.ts';
import { curlUpload, hasProgram } from './clients.ts';
import { eventually, newHome, type RunningStation, removeHome, startStation } from './running-station.ts';

/** A client with a tablet says something of a picture and agrees; the operator answers: two browsers, one station. */
describe.skipIf(!hasBrowser || !hasProgram('curl'))('what a guest says', () => {
  let home: string;
  let station: RunningStation;
  let browser: Browser;
  let tablet: BrowserContext;
  let guest: Page;
  let set: Page;
  let link: { link: { id: string }; addresses: { url: string }[]; door: { port: number } };
  let mug: string;
  const complaints: string[] = [];
  const markup = '<img src=x onerror="document.title=\'run\'"> brighter here';

  beforeAll(async () => {
    home = await newHome();
    station = await startStation(home);
    await call('POST', '/api/v1/jobs', { code: 'POTS', title: 'Autumn pots', client: 'Nobody', open: true });
    const job = (await call('POST', '/api/v1/jobs/POTS/shots', { name: 'Mug', agreement: true })) as {
      shots: { id: string }[];
    };
    mug = job.shots[0]?.id ?? '';
    await call('PATCH', '/api/v1/jobs/POTS', { currentShot: mug });
    for (const [index, name] of ['POTS0001.JPG', 'POTS0002.JPG', 'POTS0003.JPG'].entries())
      await upload(name, 60 + 60 * index);
    browser = await launchBrowser();
    tablet = await browser.newContext({
      ignoreHTTPSErrors: true,
      viewport: { width: 820, height: 1180 },
      hasTouch: true,
    });
    guest = await tablet.newPage();
    set = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
    for (const page of [set, guest]) {
      page.on('pageerror', (error) => complaints.push(error.message));
      page.on('console', (line) => {
        if (line.type() === 'error' && /Content Security Policy|Uncaught/.test(line.text()))
          complaints.push(line.text());
      });
    }
    await set.goto(station.ready.web);
    await mark('POTS0001.JPG', 'hero');
    link = (await call('POST', '/api/v1/links', {
      scope: 'guest',
      name: 'client’s tablet',
      share: { job: 'POTS', shots: [] },
    })) as typeof link;
    await guest.goto(`https://127.0.0.1:${link.door.port}/in#${link.addresses[0]?.url.split('#')[1]}`);
    await guest.waitForURL('**/guest');
  });

  afterAll(async () => {
    await browser.close();
    await station.stop();
    await removeHome(home);
  });

  async function call(method: string, path: string, body?: object): Promise<unknown> {
    const answer = await fetch(`${station.ready.web}${path}`, {
      method,
      ...(body === undefined
        ? {}
        : { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
    });
    if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${await answer.text()}`);
    return answer.json();
  }

  async function upload(name: string, tone: number): Promise<void> {
    const file = join(home, name);
    const background = { r: tone, g: tone, b: tone };
    await writeFile(
      file,
      await sharp({ create: { width: 600, height: 400, channels: 3, background } })
        .jpeg()
        .toBuffer(),
    );
    expect((await curlUpload(station, file, `/${name}`)).code).toBe(0);
    await eventually(`${name} is rendered`, async () => (await named(name)).picture.state === 'rendered');
  }

  async function named(name: string): Promise<Frame> {
    const found = (await station.frames()).find((each) => each.name === name);
    return frameShape.parse(await call('GET', `/api/v1/frames/${found?.id}`));
  }
  async function patch(name: string, change: object): Promise<void> {
    await call('PATCH', `/api/v1/frames/${(await named(name)).id}`, change);
  }
  const mark = (name: string, wanted: string): Promise<void> => patch(name, { mark: wanted });
  const words = async () => agreementList.parse(await call('GET', '/api/v1/jobs/POTS/agreements')).agreements;
  const axe = async (page: Page): Promise<unknown> =>
    (await new AxeBuilder({ page }).analyze()).violations.map(({ id, nodes }) => [
      id,
      nodes.map(({ target }) => target),
    ]);
  const picture = (page: Page, name: string) => page.locator('.guest-picture').filter({ hasText: name });
  const large = () => guest.getByRole('dialog').first();

  test('a guest sees what is marked, more or less by hand, and hears of each change at once', async () => {
    await picture(guest, 'POTS0001.JPG').waitFor();
    expect(await guest.locator('.guest-picture').count()).toBe(1);
    await patch('POTS0002.JPG', { share: 'shown' });
    await picture(guest, 'POTS0002.JPG').waitFor();
    await patch('POTS0002.JPG', { share: null });
    await picture(guest, 'POTS0002.JPG').waitFor({ state: 'detached' });
    await mark('POTS0002.JPG', 'alternate');
    await picture(guest, 'POTS0002.JPG').waitFor();
  });

  test('a touch on the picture pins a remark there; markup in it is text, and the operator sees it at once', async () => {
    await picture(guest, 'POTS0001.JPG').click();
    const box = await large().locator('.pinned-box').boundingBox();
    if (box === null) throw new Error('no picture is shown');
    await guest.touchscreen.tap(box.x + box.width * 0.25, box.y + box.height * 0.75);
    await large().getByLabel('Remark', { exact: true }).fill(markup);
    await large().getByLabel('Your name').fill('Ada');
    expect(await axe(guest)).toEqual([]);
    await large().getByRole('button', { name: 'Send' }).click();
    const pin = set.getByRole('button', { name: 'Remark 1 by Ada' });
    await set.getByRole('button', { name: 'Remarks 1' }).waitFor();
    await set.keyboard.press('Home');
    await pin.waitFor();
    const { remarks } = await named('POTS0001.JPG');
    expect(remarks).toMatchObject([
      { text: markup, by: { name: 'Ada', from: 'guest', link: 'client’s tablet' }, settled: null },
    ]);
    expect(remarks[0]?.point?.x).toBeCloseTo(0.25, 2);
    expect(remarks[0]?.point?.y).toBeCloseTo(0.75, 2);
    await pin.click();
    await set.getByText(markup).waitFor();
    expect(await set.title()).not.toBe('run');
    expect(await axe(set)).toEqual([]);
  });

  test('the operator answers and settles; the guest’s answer opens it again', async () => {
    const card = set.getByRole('dialog', { name: /Remarks/ });
    await card.getByRole('button', { name: 'Answer 1' }).click();
    await card.getByLabel('Answer', { exact: true }).fill('A stop up?');
    await card.getByLabel('Your name').fill('Lena');
    await card.getByRole('button', { name: 'Send' }).click();
    await large().getByText('A stop up?').waitFor();
    await card.getByRole('button', { name: 'Settled 1' }).click();
    await large().locator('.remark[data-settled="true"]').waitFor();
    await set.getByRole('button', { name: 'Remarks', exact: true }).waitFor();
    await large().getByRole('button', { name: 'Answer 1' }).click();
    await large().getByLabel('Answer', { exact: true }).fill('Half a stop.');
    await large().getByRole('button', { name: 'Send' }).click();
    await card.getByText('Half a stop.').waitFor();
    await card.getByRole('button', { name: 'Settled 1' }).waitFor();
    expect((await named('POTS0001.JPG')).remarks[0]?.answers.map(({ by }) => by.name)).toEqual([
      'Lena',
      'Ada',
    ]);
    await card.getByRole('button', { name: 'Close' }).click();
  });

  test('what is said while the line is down stays on the device over a reload, and counts once when it is up', async () => {
    await tablet.route('**/remarks', (route) => route.abort());
    await large().getByRole('button', { name: 'Add a remark' }).click();
    await large().getByLabel('Remark', { exact: true }).fill('The handle, please');
    await large().getByRole('button', { name: 'Send' }).click();
    await large().getByText('Kept on this device').waitFor();
    await guest.reload();
    await picture(guest, 'POTS0001.JPG').click();
    await large().getByText('Kept on this device').waitFor();
    // The first one that comes through reaches the station, whose answer is lost.
    await tablet.unroute('**/remarks');
    let lost = 0;
    await tablet.route('**/remarks', async (route) => {
      lost += 1;
      if (lost > 1) return route.continue();
      await route.fetch();
      return route.abort();
    });
    await large().getByText('Kept on this device').waitFor({ state: 'detached' });
    await eventually('it is there', async () => (await named('POTS0001.JPG')).remarks.length === 2);
    await eventually('it was sent twice', async () => lost >= 2);
    expect((await named('POTS0001.JPG')).remarks.map(({ text }) => text)).toEqual([
      markup,
      'The handle, please',
    ]);
    await tablet.unroute('**/remarks');
    expect(await guest.evaluate(() => localStorage.getItem('setside.unsent'))).toBe('[]');
  });

  test('by keyboard alone: a remark is placed with the arrows and sent', async () => {
    await large().getByRole('button', { name: 'Add a remark' }).focus();
    await guest.keyboard.press('Enter');
    await large().getByRole('button', { name: 'Where the remark belongs' }).focus();
    for (let presses = 0; presses < 5; presses++) await guest.keyboard.press('ArrowRight');
    await large().getByLabel('Remark', { exact: true }).focus();
    await guest.keyboard.type('Here');
    await large().getByRole('button', { name: 'Send' }).focus();
    await guest.keyboard.press('Enter');
    await eventually('it is there', async () => (await named('POTS0001.JPG')).remarks.length === 3);
    const { point } = (await named('POTS0001.JPG')).remarks[2] ?? {};
    expect(point?.x).toBeCloseTo(0.6, 6);
    expect(point?.y).toBeCloseTo(0.5, 6);
  });

  test('a remark on a picture that is not shared any more is kept and says why', async () => {
    await tablet.route('**/remarks', (route) => route.abort());
    await large().getByRole('button', { name: 'Add a remark' }).click();
    await large().getByLabel('Remark', { exact: true }).fill('Too late');
    await large().getByRole('button', { name: 'Send' }).click();
    await large().getByText('Kept on this device').waitFor();
    await patch('POTS0001.JPG', { share: 'kept-back' });
    await picture(guest, 'POTS0001.JPG').waitFor({ state: 'detached' });
    await tablet.unroute('**/remarks');
    await guest.getByText('not shared any more').waitFor();
    await guest.getByText('Too late').waitFor();
    expect((await named('POTS0001.JPG')).remarks).toHaveLength(3);
    expect(await axe(guest)).toEqual([]);
    await patch('POTS0001.JPG', { share: null });
    await picture(guest, 'POTS0001.JPG').waitFor();
    await guest.getByRole('button', { name: 'Try again' }).click();
    await eventually('it is taken now', async () => (await named('POTS0001.JPG')).remarks.length === 4);
    await guest.getByText('Too late').waitFor({ state: 'detached' });
  });

  test('what is being written is there again after the picture was closed, or put aside under the hand', async () => {
    await picture(guest, 'POTS0001.JPG').click();
    await large().getByRole('button', { name: 'Add a remark' }).click();
    const text = large().getByLabel('Remark', { exact: true });
    await text.fill('Half a thou');
    await large().getByRole('button', { name: 'Back to all' }).click();
    await picture(guest, 'POTS0001.JPG').click();
    await expect.poll(() => text.inputValue()).toBe('Half a thou');
    await text.fill('Half a thought');
    await patch('POTS0001.JPG', { share: 'kept-back' });
    await picture(guest, 'POTS0001.JPG').waitFor({ state: 'detached' });
    await patch('POTS0001.JPG', { share: null });
    await picture(guest, 'POTS0001.JPG').click();
    await expect.poll(() => text.inputValue()).toBe('Half a thought');
    // Called off it is gone.
    await large().getByRole('button', { name: 'Leave it' }).click();
    await large().getByRole('button', { name: 'Add a remark' }).click();
    expect(await text.inputValue()).toBe('');
    await large().getByRole('button', { name: 'Leave it' }).click();
    await large().getByRole('button', { name: 'Back to all' }).click();
  });

  test('a guest agrees to a shot by name; another hero makes the word older than the picture, told on both pages', async () => {
    await guest.getByRole('button', { name: 'I agree Mug' }).click();
    const asked = guest.getByRole('dialog', { name: /Agree to this shot/ });
    expect(await axe(guest)).toEqual([]);
    expect(await asked.getByLabel('Your name').inputValue()).toBe('Ada');
    await asked.getByRole('button', { name: 'I agree' }).click();
    await guest.getByText('to the picture as it is').waitFor();
    const hero = await named('POTS0001.JPG');
    expect(await words()).toMatchObject([
      { shot: mug, by: { name: 'Ada', link: 'client’s tablet' }, pictures: [{ frame: hero.id }] },
    ]);
    await mark('POTS0001.JPG', 'select');
    await mark('POTS0002.JPG', 'hero');
    await guest.getByText('older than the picture: another one is the hero now').waitFor();
    await set.getByRole('button', { name: /^Remarks/ }).click();
    await set.getByText('older than the picture: another one is the hero now').waitFor();
    await set.getByRole('button', { name: 'Close', exact: true }).click();
    await guest.getByRole('button', { name: 'I agree Mug' }).click();
    await asked.getByRole('button', { name: 'I agree' }).click();
    await guest.getByText('to the picture as it is').waitFor();
    expect(await words()).toHaveLength(1);
  });

  test('the operator cannot undo a guest’s word by accident; a guest takes their own back', async () => {
    const { acts } = (await call('GET', '/api/v1/undo')) as { acts: { what: { code: string } }[] };
    expect(acts.map(({ what }) => what.code)).not.toContain('job.agreed');
    await guest.getByRole('button', { name: 'Take back Mug' }).click();
    await eventually('it is gone', async () => (await words()).length === 0);
    await guest.getByRole('button', { name: 'I agree Mug' }).waitFor();
  });

  test('another device with the same name is asked who it is, and neither takes the other’s word back', async () => {
    const asked = guest.getByRole('dialog', { name: /Agree to this shot/ });
    await guest.getByRole('button', { name: 'I agree Mug' }).click();
    await asked.getByRole('button', { name: 'I agree' }).click();
    await guest.getByRole('button', { name: 'Take back Mug' }).waitFor();
    await eventually('it is given', async () => (await words()).length === 1);
    // As a second device of the link is: it has given nothing.
    await guest.evaluate(() => localStorage.removeItem('setside.own-agreements'));
    await guest.reload();
    await guest.getByText('to the picture as it is').waitFor();
    expect(await guest.getByRole('button', { name: 'Take back Mug' }).count()).toBe(0);
    await guest.getByRole('button', { name: 'I agree Mug' }).click();
    await asked.getByRole('button', { name: 'I agree' }).click();
    await asked.getByText('Ada has agreed already, on another device.').waitFor();
    await asked.getByRole('button', { name: 'It was me: agree again' }).waitFor();
    expect(await axe(guest)).toEqual([]);
    await asked.getByLabel('Your name').fill('Ada B.');
    await asked.getByRole('button', { name: 'I agree' }).click();
    await eventually('both stand', async () => (await words()).length === 2);
    await guest.getByRole('button', { name: 'Take back Mug' }).click();
    await eventually(
      'the first stands',
      async () => (await words()).map(({ by }) => by.name).join() === 'Ada',
    );
    await call('DELETE', `/api/v1/jobs/POTS/agreements/${(await words())[0]?.id}`);
    await guest.getByText('to the picture as it is').waitFor({ state: 'detached' });
  });

  test('what was said outlasts a restart and the loss of the register', async () => {
    const before = (await named('POTS0001.JPG')).remarks;
    await call('POST', `/api/v1/jobs/POTS/shots/${mug}/agreements`, {
      id: 'said-on-the-phone',
      name: 'Ada, by phone',
      pictures: [
        { frame: (await named('POTS0002.JPG')).id, look: lookOf(await named('POTS0002.JPG')), profile: null },
      ],
    });
    const given = await words();
    await station.stop();
    for (const file of ['setside.db', 'setside.db-wal', 'setside.db-shm'])
      await import('node:fs/promises').then(({ rm }) => rm(join(home, file), { force: true }));
    station = await startStation(home, [
      '--links',
      String(link.door.port),
      '--web',
      new URL(station.ready.web).port,
    ]);
    expect((await named('POTS0001.JPG')).remarks).toEqual(before);
    expect(before).toHaveLength(4);
    expect(await words()).toEqual(given);
  });

  test('a link that has ended says so, and shows nothing any more', async () => {
    await picture(guest, 'POTS0002.JPG').waitFor();
    await fetch(`${station.ready.web}/api/v1/links/${link.link.id}`, { method: 'DELETE' });
    await guest.getByText('This link has ended').waitFor();
    expect(await guest.locator('img').count()).toBe(0);
    expect(complaints).toEqual([]);
  });
});

function lookOf({ picture }: Frame): string {
  return picture.state === 'rendered' ? picture.look : '';
}
