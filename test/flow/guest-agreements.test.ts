import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Frame } from '../../src/contract/index.ts';
import { axe, canStage, GuestStage } from './guest-stage.ts';
import { eventually, startStation } from './running-station.ts';

/** Guests of one link agree to a shot, each for themselves; a phone hears what they say. */
describe.skipIf(!canStage)('what guests agree to', () => {
  let stage: GuestStage;
  beforeAll(async () => {
    stage = await GuestStage.open();
  });
  afterAll(() => stage.close());

  test('a guest agrees to a shot by name; another hero makes the word older than the picture, told on both pages', async () => {
    await stage.guest.getByRole('button', { name: 'I agree Mug' }).click();
    const asked = stage.guest.getByRole('dialog', { name: /Agree to this shot/ });
    expect(await axe(stage.guest)).toEqual([]);
    await asked.getByLabel('Your name').fill('Ada');
    await asked.getByText('You agree to this picture as you see it now: POTS0001.JPG.').waitFor();
    await asked.getByRole('button', { name: 'I agree' }).click();
    await stage.guest.getByText('to the picture as it is').waitFor();
    const hero = await stage.named('POTS0001.JPG');
    expect(await stage.words()).toMatchObject([
      { shot: stage.mug, by: { name: 'Ada', link: 'client’s tablet' }, pictures: [{ frame: hero.id }] },
    ]);
    await stage.mark('POTS0001.JPG', 'select');
    await stage.mark('POTS0002.JPG', 'hero');
    await stage.guest.getByText('older than the picture: another one is the hero now').waitFor();
    await stage.set.getByRole('button', { name: /^Remarks/ }).click();
    await stage.set.getByText('older than the picture: another one is the hero now').waitFor();
    await stage.set.getByRole('button', { name: 'Close', exact: true }).click();
    await stage.guest.getByRole('button', { name: 'I agree Mug' }).click();
    await asked.getByRole('button', { name: 'I agree' }).click();
    await stage.guest.getByText('to the picture as it is').waitFor();
    expect(await stage.words()).toHaveLength(1);
  });

  test('the operator cannot undo a guest’s word by accident; a guest takes their own back', async () => {
    const { acts } = (await stage.call('GET', '/api/v1/undo')) as { acts: { what: { code: string } }[] };
    expect(acts.map(({ what }) => what.code)).not.toContain('job.agreed');
    await stage.guest.getByRole('button', { name: 'Take back Mug' }).click();
    await eventually('it is gone', async () => (await stage.words()).length === 0);
    await stage.guest.getByRole('button', { name: 'I agree Mug' }).waitFor();
  });

  test('another device with the same name is asked who it is, and neither takes the other’s word back', async () => {
    const asked = stage.guest.getByRole('dialog', { name: /Agree to this shot/ });
    await stage.guest.getByRole('button', { name: 'I agree Mug' }).click();
    await asked.getByRole('button', { name: 'I agree' }).click();
    await stage.guest.getByRole('button', { name: 'Take back Mug' }).waitFor();
    await eventually('it is given', async () => (await stage.words()).length === 1);
    const other = await stage.browser.newContext({
      ignoreHTTPSErrors: true,
      viewport: { width: 1024, height: 768 },
    });
    const second = await other.newPage();
    await stage.enter(second, stage.link);
    const asking = second.getByRole('dialog', { name: /Agree to this shot/ });
    await second.getByText('to the picture as it is').waitFor();
    expect(await second.getByRole('button', { name: 'Take back Mug' }).count()).toBe(0);
    // Whatever its page says, the station gives it no hold on the other device's word.
    const first = (await stage.words())[0];
    const taken = await second.evaluate(
      async (id) => (await fetch(`/api/v1/jobs/POTS/agreements/${id}`, { method: 'DELETE' })).status,
      first?.id,
    );
    expect(taken).toBe(403);
    const again = await second.evaluate(
      async ([shot, body]) => {
        const headers = { 'content-type': 'application/json' };
        const answer = await fetch(`/api/v1/jobs/POTS/shots/${shot}/agreements`, {
          method: 'POST',
          headers,
          body,
        });
        return ((await answer.json()) as { code?: string }).code;
      },
      [stage.mug, JSON.stringify({ id: 'by-another-ada', name: 'Ada', pictures: first?.pictures })] as const,
    );
    expect(again).toBe('name-taken');
    await second.getByRole('button', { name: 'I agree Mug' }).click();
    await asking.getByLabel('Your name').fill('Ada');
    await asking.getByRole('button', { name: 'I agree' }).click();
    await asking.getByText('Ada has agreed already, on another device.').waitFor();
    await asking.getByRole('button', { name: 'It was me: agree again' }).waitFor();
    expect(await axe(second)).toEqual([]);
    await asking.getByLabel('Your name').fill('Ada B.');
    await asking.getByRole('button', { name: 'I agree' }).click();
    await eventually('both stand', async () => (await stage.words()).length === 2);
    await second.getByRole('button', { name: 'Take back Mug' }).click();
    await eventually(
      'the first stands',
      async () => (await stage.words()).map(({ by }) => by.name).join() === 'Ada',
    );
    await second.getByRole('button', { name: 'I agree Mug' }).click();
    await asking.getByLabel('Your name').fill('Ada');
    await asking.getByRole('button', { name: 'I agree' }).click();
    await asking.getByRole('button', { name: 'It was me: agree again' }).click();
    await eventually('hers is the one word', async () => {
      const given = await stage.words();
      return given.length === 1 && given[0]?.id !== first?.id;
    });
    await other.close();
    await stage.call('DELETE', `/api/v1/jobs/POTS/agreements/${(await stage.words())[0]?.id}`);
    await stage.guest.getByText('to the picture as it is').waitFor({ state: 'detached' });
  });

  test('a phone is told in one line what a guest said, and shows the picture; once looked at the line is gone', async () => {
    const phone = await stage.browser.newContext({
      ignoreHTTPSErrors: true,
      viewport: { width: 390, height: 844 },
      hasTouch: true,
      isMobile: true,
    });
    const pocket = await phone.newPage();
    pocket.on('pageerror', (error) => stage.complaints.push(error.message));
    await stage.enter(pocket, await stage.makeLink({ scope: 'pocket', name: 'phone' }));
    const line = pocket.locator('.pocket-words');
    await pocket.getByTestId('pocket-word').waitFor();
    expect(await line.count()).toBe(0);
    await stage.picture(stage.guest, 'POTS0001.JPG').click();
    await stage.large().getByRole('button', { name: 'Add a remark' }).click();
    await stage.large().getByLabel('Remark', { exact: true }).fill('A hair on the rim');
    const sees = await stage.large().getByRole('button', { name: 'Send' }).boundingBox();
    const foot = await stage.large().locator('footer').boundingBox();
    expect((sees?.y ?? 0) + (sees?.height ?? 0)).toBeLessThanOrEqual(foot?.y ?? 0);
    await stage.large().getByRole('button', { name: 'Send' }).click();
    await expect.poll(() => line.textContent()).toBe('New remark by Ada: A hair on the rim');
    await stage.large().getByRole('button', { name: 'Back to all' }).click();
    expect(await axe(pocket)).toEqual([]);
    await line.click();
    const card = pocket.getByRole('dialog', { name: 'Remarks' });
    await line.waitFor({ state: 'detached' });
    expect(await axe(pocket)).toEqual([]);
    await card.getByRole('button', { name: 'Show this frame POTS0001.JPG' }).first().click();
    await expect.poll(() => pocket.locator('.pocket-steps strong').textContent()).toBe('POTS0001.JPG');
    await phone.close();
  });

  test('what was said outlasts a restart and the loss of the register', async () => {
    const before = (await stage.named('POTS0001.JPG')).remarks;
    await stage.call('POST', `/api/v1/jobs/POTS/shots/${stage.mug}/agreements`, {
      id: 'said-on-the-phone',
      name: 'Ada, by phone',
      pictures: [
        {
          frame: (await stage.named('POTS0002.JPG')).id,
          look: lookOf(await stage.named('POTS0002.JPG')),
          profile: null,
        },
      ],
    });
    const given = await stage.words();
    await stage.station.stop();
    for (const file of ['setside.db', 'setside.db-wal', 'setside.db-shm'])
      await rm(join(stage.home, file), { force: true });
    stage.station = await startStation(stage.home, [
      '--links',
      String(stage.link.door.port),
      '--web',
      new URL(stage.station.ready.web).port,
    ]);
    expect((await stage.named('POTS0001.JPG')).remarks).toEqual(before);
    expect(before).toHaveLength(1);
    expect(await stage.words()).toEqual(given);
    expect(stage.complaints).toEqual([]);
  });
});

function lookOf({ picture }: Frame): string {
  return picture.state === 'rendered' ? picture.look : '';
}
