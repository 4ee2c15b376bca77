import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import type { Frame, FrameVerdict } from '../../../src/contract/index.ts';
import { sampleFrame } from '../../../src/page/testing/sample-frame.ts';
import { endText, heard, listen } from '../../listen.ts';
import { axeFindings } from './axe.ts';
import { shootDay } from './day.ts';
import type { FakeStation } from './fake-station.ts';
import { type Scene, stage } from './stage.ts';

const { open } = stage();

const answer = (judgement: FrameVerdict['judgement'], code: string, args = {}): FrameVerdict => ({
  judgement,
  findings: [{ code, args }],
  figure: null,
});

function judged(id: string, second: number, verdicts: Partial<Frame['verdicts']> = {}): Frame {
  const frame = sampleFrame(id, second, { shot: 's1' });
  const right = { sharp: answer('good', 'sharp.good'), exposed: answer('good', 'exposed.good') };
  return { ...frame, verdicts: { ...frame.verdicts, ...right, ...verdicts } };
}

const soft = { sharp: answer('doubt', 'sharp.soft', { px: 3.1, limitPx: 2.8 }) };
const off = (px: number) => ({
  inPlace: answer('bad', 'place.moved', { rightPx: px, downPx: 0, limitPx: 10, mm: 0 }),
});

async function hears(page: Page, ...wanted: string[]): Promise<void> {
  await expect.poll(() => heard(page)).toEqual(wanted);
}

/** A page that is listened to, with the sound chosen on its card. */
async function withSound(
  prepare: (station: FakeStation) => void | Promise<void>,
  how: 'tones' | 'tones and a voice',
): Promise<Scene> {
  const scene = await open(prepare);
  await scene.page.context().addInitScript(listen);
  await scene.page.reload();
  await scene.page.locator('.page[data-empty]').waitFor();
  await scene.page.getByRole('button', { name: 'Sound', exact: true }).click();
  await scene.page.getByRole('radio', { name: how, exact: true }).check();
  return scene;
}

const close = (page: Page): Promise<void> => page.getByRole('button', { name: 'Close', exact: true }).click();

/** A new frame, arrived and measured. */
const arrive = (station: FakeStation, frame: Frame): void => {
  station.put(frame);
  station.tell({ type: 'frame', change: 'judged', frame });
};

test('nothing sounds until somebody chose it, and what is chosen holds in the next tab, after a touch', async () => {
  const { page, station } = await open((fake) => fake.put(judged('a', 0)));
  await page.context().addInitScript(listen);
  await page.reload();
  await page.locator('[data-testid="picture"], .no-picture, .rail-frame').first().waitFor();
  await page.locator('body').click({ position: { x: 5, y: 5 } });
  arrive(station, judged('b', 5, soft));
  await page.locator('.rail-frame').nth(1).waitFor();
  expect(await heard(page)).toEqual([]);
  await page.getByRole('button', { name: 'Sound', exact: true }).click();
  await page.getByRole('radio', { name: 'tones', exact: true }).check();
  // A new tab has no leave to sound; the page says what it waits for. (What Playwright asks of a page counts as a touch, CDP
  // `userGesture`, so whether there was one before the page looks would be chance.)
  const again = await page.context().newPage();
  await again.addInitScript(() =>
    Object.defineProperty(navigator, 'userActivation', { value: { hasBeenActive: false } }),
  );
  await page.close();
  await again.goto(station.url);
  await again.getByRole('button', { name: 'Touch for sound' }).waitFor();
  await again.keyboard.press('Shift');
  await again.locator('button[data-sound="tones"]').waitFor();
  // What is listed when the page opens is no news; only what comes after it sounds.
  await again.locator('.rail-frame').nth(1).waitFor();
  arrive(station, judged('c', 10, soft));
  await hears(again, '2 tones');
});

test('each answer has its own tones, the voice follows them, and only doubts and bad ones where that was chosen', async () => {
  const { page, station } = await withSound((fake) => fake.put(judged('a', 0)), 'tones and a voice');
  await close(page);
  arrive(station, judged('b', 5));
  await hears(page, '1 tones', 'Good.');
  await endText(page);
  arrive(station, judged('c', 10, soft));
  const doubt = 'Doubt. Soft: edges 3.1 pixels wide, up to 2.8 pixels is sharp.';
  await hears(page, '1 tones', 'Good.', '2 tones', doubt);
  await endText(page);
  await page.keyboard.press('v');
  await page.getByRole('radio', { name: 'doubts and bad ones only' }).check();
  await close(page);
  arrive(station, judged('d', 15));
  arrive(station, judged('e', 20, { exposed: answer('bad', 'exposed.dark', { stops: 5.5 }) }));
  const bad = 'Bad. Dark: the brightest lies 5.5 stops below what the sensor holds.';
  await hears(page, '1 tones', 'Good.', '2 tones', doubt, '3 tones', bad);
});

test('what comes while something is said is summed up, and nothing is said over itself', async () => {
  const { page, station } = await withSound((fake) => fake.put(judged('a', 0)), 'tones and a voice');
  await close(page);
  arrive(station, judged('b', 5));
  await hears(page, '1 tones', 'Good.');
  // Within the second and a half in which a word is heard out; a doubt among them would be graver and go first.
  await page.evaluate(() => Object.defineProperty(performance, 'now', { value: () => 0 }));
  for (const [index, id] of ['c', 'd', 'e', 'f'].entries()) arrive(station, judged(id, 10 + index));
  await page.locator('.rail-frame').nth(5).waitFor();
  expect(await heard(page)).toEqual(['1 tones', 'Good.']);
  await endText(page);
  await hears(page, '1 tones', 'Good.', '1 tones', 'Four frames, all good.');
});

test('while something is moved to its place each frame sounds once, twice when it is there, and the voice says so', async () => {
  const { page, station } = await withSound((fake) => fake.put(judged('a', 0)), 'tones and a voice');
  await close(page);
  arrive(station, judged('b', 5, off(160)));
  await expect.poll(async () => (await heard(page)).length).toBe(2);
  arrive(station, judged('c', 10, off(40)));
  await expect.poll(async () => (await heard(page)).at(-1)).toBe('1 tones');
  arrive(station, judged('d', 15, { inPlace: answer('good', 'place.good', { px: 3 }) }));
  await expect.poll(async () => (await heard(page)).slice(-3)).toEqual(['1 tones', '2 tones', 'In place.']);
});

test('a station that is gone is heard', async () => {
  const { page, station } = await withSound((fake) => fake.put(judged('a', 0)), 'tones and a voice');
  await close(page);
  await station.stop();
  await hears(page, '2 tones', 'The station does not answer.');
});

test('of several tabs one is heard; when it is closed the next one is', async () => {
  const { page, station } = await withSound((fake) => fake.put(judged('a', 0)), 'tones');
  await close(page);
  const second = await page.context().newPage();
  await second.goto(station.url);
  await second.locator('.rail-frame').waitFor();
  await second.keyboard.press('Shift');
  await second.keyboard.press('v');
  await second.getByText('Another tab of this browser is the one that is heard.').waitFor();
  arrive(station, judged('b', 5, soft));
  await hears(page, '2 tones');
  expect(await heard(second)).toEqual([]);
  await page.close();
  await expect.poll(() => second.getByRole('status').allTextContents()).not.toContain('Another tab');
  await second.getByText('Another tab of this browser').waitFor({ state: 'detached' });
  arrive(station, judged('c', 10));
  await hears(second, '1 tones');
});

test('the card is without a fault for axe, and every answer can be heard on it', async () => {
  const scene = await withSound((fake) => shootDay(fake, { judged: true, cameras: 1 }), 'tones');
  expect(await axeFindings(scene.page)).toEqual([]);
  for (const [name, tones] of [
    ['good', 1],
    ['doubt', 2],
    ['bad', 3],
    ['station gone', 2],
  ] as const) {
    await scene.page.getByRole('button', { name, exact: true }).last().click();
    await expect.poll(async () => (await heard(scene.page)).at(-1)).toBe(`${tones} tones`);
  }
});

test('in the far view the shot and the number of the frame are read from four metres: 96 px at 1080p', async () => {
  const { page } = await open((fake) => shootDay(fake, { judged: true, cameras: 1 }), {
    viewport: { width: 1920, height: 1080 },
  });
  await page.getByRole('button', { name: 'Far view' }).click();
  for (const selector of ['.far-line strong', '.far-number']) {
    const element = page.locator(selector);
    expect(
      await element.evaluate((it) => Number.parseFloat(getComputedStyle(it).fontSize)),
    ).toBeGreaterThanOrEqual(96);
  }
  expect(await page.locator('.far-number').textContent()).toContain('0059');
  expect(await page.evaluate(() => document.documentElement.scrollHeight)).toBeLessThanOrEqual(1080);
  await page.getByRole('button', { name: 'Full screen' }).click();
  await page.waitForFunction(() => document.fullscreenElement !== null);
  await page.getByRole('button', { name: 'Full screen', pressed: true }).click();
  await page.waitForFunction(() => document.fullscreenElement === null);
});
