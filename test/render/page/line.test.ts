import { expect, test } from 'vitest';
import { sampleFrame, sampleStation } from '../../../src/page/testing/sample-frame.ts';
import { brokenOffFrame } from './day.ts';
import { stage } from './stage.ts';
import { stillLifeJpeg } from './still-life.ts';

const { open } = stage();
const life = { place: 0.4, hue: 30, light: 1 };
const sentence = '[data-testid="sentence"]';

test('before the first frame the page says what to do and exactly what to enter', async () => {
  const { page } = await open(() => undefined);
  await page.getByText('No camera has reached this station yet.', { exact: true }).first().waitFor();
  const card = page.locator('.first-steps');
  expect(await card.locator('ol > li').count()).toBe(3);
  const entries = await card.locator('dl > div').allTextContents();
  expect(entries).toEqual([
    'TransferFTP',
    'Server address192.168.8.20',
    'Port2121',
    'Passive modeon',
    'Folderleave empty, or /',
    'Usercam1',
    'Passwordmaple-river-42',
  ]);
});

test('a camera that tried and failed is told of before the first frame', async () => {
  const { page, station } = await open(() => undefined);
  await page.locator('.first-steps').waitFor();
  const [camera] = sampleStation().cameras;
  if (camera === undefined) throw new Error('expected the sample station to have a camera');
  const at = '2031-05-06T12:00:00.000Z';
  const finding = { code: 'line.wrong-login', args: { address: '192.168.8.31', user: 'cam1' } };
  station.tell({
    type: 'line',
    station: sampleStation({ cameras: [{ ...camera, lastSeen: at, log: [{ at, finding }] }] }),
  });
  await page.getByText('gave user “cam1” and was not let in').waitFor();
  await page.locator(sentence, { hasText: 'No frame has arrived yet.' }).waitFor();
});

test('a station that is gone is said at once, and the page comes back by itself with all that happened', async () => {
  const { page, station } = await open((fake) => fake.put(sampleFrame('a', 0)));
  await page.locator('.rail-frame').waitFor();
  await station.stop();
  await page.locator(sentence, { hasText: 'The station has not answered since' }).waitFor();
  station.put(sampleFrame('b', 30));
  await station.start();
  await page.locator(sentence, { hasText: 'Whole: 24.6 MB' }).waitFor();
  await page.waitForFunction(() => document.querySelectorAll('.rail-frame').length === 2);
  station.begin(sampleFrame('c', 60));
  await page.waitForFunction(() => document.querySelectorAll('.rail-frame').length === 3);
});

test('a station that forgot what the page missed makes it load everything again', async () => {
  const { page, station } = await open((fake) => fake.put(sampleFrame('a', 0)));
  await page.locator('.rail-frame').waitFor();
  station.put(sampleFrame('b', 30));
  station.tell({ type: 'resync' });
  await page.waitForFunction(() => document.querySelectorAll('.rail-frame').length === 2);
});

test('a day of more frames than one page of the listing is read to its end', async () => {
  const { page } = await open(async (fake) => {
    const rendering = await stillLifeJpeg(life, 300, 200);
    for (let index = 0; index < 120; index += 1)
      fake.put(sampleFrame(`f${index}`, index * 20), { rendering });
  });
  await page.locator('[data-testid="picture"][data-frame-id="f119"]').waitFor();
  // Only what is in sight is drawn, so that a long day costs no more than a short one.
  expect(await page.locator('.rail-frame').count()).toBeLessThan(60);
  await page.keyboard.press('Home');
  await page.locator('[data-testid="picture"][data-frame-id="f0"]').waitFor();
});

test('a broken-off file stays on the rail with its sentence until it is let go', async () => {
  const { page, station } = await open((fake) => {
    fake.put(sampleFrame('a', 0));
    fake.put(brokenOffFrame('b', 20, 0.41));
  });
  const trouble = page.locator('.rail-trouble');
  await trouble.waitFor();
  expect(await trouble.textContent()).toBe(
    'Broken off after 10.1 MB of 24.6 MB (41 %): send it again from the camera, or let the camera resume.',
  );
  station.tell({ type: 'arrival', change: 'let-go', frame: station.frame('b') });
  await trouble.waitFor({ state: 'detached' });
});

test('a full disk and a missing second place are said beside the sentence', async () => {
  const { page } = await open((fake) => {
    fake.station = sampleStation({ secondPlaces: [], disk: { freeBytes: 1e9, totalBytes: 960e9 } });
    fake.put(sampleFrame('a', 0));
  });
  await page.locator('.house li').first().waitFor();
  // 1 GB holds forty frames of 24.6 MB.
  expect(await page.locator('.house li').allTextContents()).toEqual([
    'The disk is nearly full: room for about 40 more frames. Make room now.',
    'Every frame is in one place only: no second place is set (--copy with a folder on another disk).',
  ]);
});
