import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { axe, canStage, GuestStage } from './guest-stage.ts';
import { eventually } from './running-station.ts';

const markup = '<img src=x onerror="document.title=\'run\'"> brighter here';

/** A client with a tablet says something of a picture; the operator answers: two browsers, one station. */
describe.skipIf(!canStage)('what a guest says', () => {
  let stage: GuestStage;
  beforeAll(async () => {
    stage = await GuestStage.open();
  });
  afterAll(() => stage.close());

  test('a guest sees what is marked, more or less by hand, and hears of each change at once', async () => {
    await stage.picture(stage.guest, 'POTS0001.JPG').waitFor();
    expect(await stage.guest.locator('.guest-picture').count()).toBe(1);
    await stage.patch('POTS0002.JPG', { share: 'shown' });
    await stage.picture(stage.guest, 'POTS0002.JPG').waitFor();
    await stage.patch('POTS0002.JPG', { share: null });
    await stage.picture(stage.guest, 'POTS0002.JPG').waitFor({ state: 'detached' });
    await stage.mark('POTS0002.JPG', 'alternate');
    await stage.picture(stage.guest, 'POTS0002.JPG').waitFor();
  });

  test('a touch on the picture pins a remark there; markup in it is text, and the operator sees it at once', async () => {
    await stage.picture(stage.guest, 'POTS0001.JPG').click();
    const box = await stage.large().locator('.pinned-box').boundingBox();
    if (box === null) throw new Error('no picture is shown');
    await stage.guest.touchscreen.tap(box.x + box.width * 0.25, box.y + box.height * 0.75);
    await stage.large().getByLabel('Remark', { exact: true }).fill(markup);
    await stage.large().getByLabel('Your name').fill('Ada');
    expect(await axe(stage.guest)).toEqual([]);
    await stage.large().getByRole('button', { name: 'Send' }).click();
    const pin = stage.set.getByRole('button', { name: 'Remark 1 by Ada' });
    await stage.set.getByRole('button', { name: 'Remarks 1' }).waitFor();
    await stage.set.keyboard.press('Home');
    await pin.waitFor();
    const { remarks } = await stage.named('POTS0001.JPG');
    expect(remarks).toMatchObject([
      { text: markup, by: { name: 'Ada', from: 'guest', link: 'client’s tablet' }, settled: null },
    ]);
    expect(remarks[0]?.point?.x).toBeCloseTo(0.25, 2);
    expect(remarks[0]?.point?.y).toBeCloseTo(0.75, 2);
    await pin.click();
    await stage.set.getByText(markup).waitFor();
    expect(await stage.set.title()).not.toBe('run');
    expect(await axe(stage.set)).toEqual([]);
  });

  test('the operator answers and settles; the guest’s answer opens it again', async () => {
    const card = stage.set.getByRole('dialog', { name: /Remarks/ });
    await card.getByRole('button', { name: 'Answer 1' }).click();
    await card.getByLabel('Answer', { exact: true }).fill('A stop up?');
    await card.getByLabel('Your name').fill('Lena');
    await card.getByRole('button', { name: 'Send' }).click();
    await stage.large().getByText('A stop up?').waitFor();
    await card.getByRole('button', { name: 'Settled 1' }).click();
    await stage.large().locator('.remark[data-settled="true"]').waitFor();
    await stage.set.getByRole('button', { name: 'Remarks', exact: true }).waitFor();
    await stage.large().getByRole('button', { name: 'Answer 1' }).click();
    await stage.large().getByLabel('Answer', { exact: true }).fill('Half a stop.');
    await stage.large().getByRole('button', { name: 'Send' }).click();
    await card.getByText('Half a stop.').waitFor();
    await card.getByRole('button', { name: 'Settled 1' }).waitFor();
    expect((await stage.named('POTS0001.JPG')).remarks[0]?.answers.map(({ by }) => by.name)).toEqual([
      'Lena',
      'Ada',
    ]);
    await card.getByRole('button', { name: 'Close' }).click();
  });

  test('what is said while the line is down stays on the device over a reload, and counts once when it is up', async () => {
    await stage.tablet.route('**/remarks', (route) => route.abort());
    await stage.large().getByRole('button', { name: 'Add a remark' }).click();
    await stage.large().getByLabel('Remark', { exact: true }).fill('The handle, please');
    await stage.large().getByRole('button', { name: 'Send' }).click();
    await stage.large().getByText('Kept on this device').waitFor();
    await stage.guest.reload();
    await stage.picture(stage.guest, 'POTS0001.JPG').click();
    await stage.large().getByText('Kept on this device').waitFor();
    // The first one that comes through reaches the stage.station, whose answer is lost.
    await stage.tablet.unroute('**/remarks');
    let lost = 0;
    await stage.tablet.route('**/remarks', async (route) => {
      lost += 1;
      if (lost > 1) return route.continue();
      await route.fetch();
      return route.abort();
    });
    await stage.large().getByText('Kept on this device').waitFor({ state: 'detached' });
    await eventually('it is there', async () => (await stage.named('POTS0001.JPG')).remarks.length === 2);
    await eventually('it was sent twice', async () => lost >= 2);
    expect((await stage.named('POTS0001.JPG')).remarks.map(({ text }) => text)).toEqual([
      markup,
      'The handle, please',
    ]);
    await stage.tablet.unroute('**/remarks');
    expect(await stage.guest.evaluate(() => localStorage.getItem('setside.unsent'))).toBe('[]');
  });

  test('by keyboard alone: a remark is placed with the arrows and sent', async () => {
    await stage.large().getByRole('button', { name: 'Add a remark' }).focus();
    await stage.guest.keyboard.press('Enter');
    await stage.large().getByRole('button', { name: 'Where the remark belongs' }).focus();
    for (const key of ['Shift+ArrowRight', 'Shift+ArrowRight', 'ArrowRight', 'ArrowLeft'])
      await stage.guest.keyboard.press(key);
    await stage.large().getByLabel('Remark', { exact: true }).focus();
    await stage.guest.keyboard.type('Here');
    await stage.large().getByRole('button', { name: 'Send' }).focus();
    await stage.guest.keyboard.press('Enter');
    await eventually('it is there', async () => (await stage.named('POTS0001.JPG')).remarks.length === 3);
    const { point } = (await stage.named('POTS0001.JPG')).remarks[2] ?? {};
    expect(point?.x).toBeCloseTo(0.6, 6);
    expect(point?.y).toBeCloseTo(0.5, 6);
  });

  test('a remark on a picture that is not shared any more is kept and says why', async () => {
    await stage.tablet.route('**/remarks', (route) => route.abort());
    await stage.large().getByRole('button', { name: 'Add a remark' }).click();
    await stage.large().getByLabel('Remark', { exact: true }).fill('Too late');
    await stage.large().getByRole('button', { name: 'Send' }).click();
    await stage.large().getByText('Kept on this device').waitFor();
    await stage.patch('POTS0001.JPG', { share: 'kept-back' });
    await stage.picture(stage.guest, 'POTS0001.JPG').waitFor({ state: 'detached' });
    await stage.tablet.unroute('**/remarks');
    await stage.guest.getByText('not shared any more').waitFor();
    await stage.guest.getByText('Too late').waitFor();
    expect((await stage.named('POTS0001.JPG')).remarks).toHaveLength(3);
    expect(await axe(stage.guest)).toEqual([]);
    await stage.patch('POTS0001.JPG', { share: null });
    await stage.picture(stage.guest, 'POTS0001.JPG').waitFor();
    await stage.guest.getByRole('button', { name: 'Try again' }).click();
    await eventually('it is taken now', async () => (await stage.named('POTS0001.JPG')).remarks.length === 4);
    await stage.guest.getByText('Too late').waitFor({ state: 'detached' });
  });

  test('what is being written is there again after the picture was closed, or put aside under the hand', async () => {
    await stage.picture(stage.guest, 'POTS0001.JPG').click();
    await stage.large().getByRole('button', { name: 'Add a remark' }).click();
    const text = stage.large().getByLabel('Remark', { exact: true });
    await text.fill('Half a thou');
    await stage.large().getByRole('button', { name: 'Back to all' }).click();
    await stage.picture(stage.guest, 'POTS0001.JPG').click();
    await expect.poll(() => text.inputValue()).toBe('Half a thou');
    await text.fill('Half a thought');
    await stage.patch('POTS0001.JPG', { share: 'kept-back' });
    await stage.picture(stage.guest, 'POTS0001.JPG').waitFor({ state: 'detached' });
    await stage.patch('POTS0001.JPG', { share: null });
    await stage.picture(stage.guest, 'POTS0001.JPG').click();
    await expect.poll(() => text.inputValue()).toBe('Half a thought');
    // Called off it is gone.
    await stage.large().getByRole('button', { name: 'Leave it' }).click();
    await stage.large().getByRole('button', { name: 'Add a remark' }).click();
    expect(await text.inputValue()).toBe('');
    await stage.large().getByRole('button', { name: 'Leave it' }).click();
    await stage.large().getByRole('button', { name: 'Back to all' }).click();
  });

  test('a link that has ended says so, shows nothing any more, and says what it did not send', async () => {
    await stage.picture(stage.guest, 'POTS0002.JPG').click();
    await stage.tablet.route('**/remarks', (route) => route.abort());
    await stage.large().getByRole('button', { name: 'Add a remark' }).click();
    await stage.large().getByLabel('Remark', { exact: true }).fill('Never heard');
    await stage.large().getByRole('button', { name: 'Send' }).click();
    await stage.large().getByText('Kept on this device').waitFor();
    await fetch(`${stage.station.ready.web}/api/v1/links/${stage.link.link.id}`, { method: 'DELETE' });
    await stage.guest.getByText('This link has ended').waitFor();
    expect(await stage.guest.locator('img').count()).toBe(0);
    await stage.guest.getByText('Never heard').waitFor();
    expect(await axe(stage.guest)).toEqual([]);
    await stage.guest.getByRole('button', { name: 'Throw away' }).click();
    await stage.guest.getByText('Never heard').waitFor({ state: 'detached' });
    expect(stage.complaints).toEqual([]);
  });
});
