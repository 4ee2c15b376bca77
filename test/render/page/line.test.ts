import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import type { Station } from '../../../src/contract/index.ts';
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
    'Server address192.168.8.20',
    'Folderleave empty, or /',
    'Passive modeon (data ports 50000-50099)',
    'FTPport 2121',
    'Usercam1',
    'Passwordmaple-river-42',
  ]);
});

test('in the demo nobody is asked to join a camera: its own is drawing the first picture', async () => {
  const { page } = await open((fake) => {
    fake.station = sampleStation({ demo: true });
  });
  await page.locator(sentence, { hasText: 'The pretend camera is drawing its first picture.' }).waitFor();
  expect(await page.locator('.first-steps').textContent()).not.toMatch(/Join|Password/);
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
    station: sampleStation({ cameras: [{ ...camera, lastSeen: at, log: [{ at, camera: null, finding }] }] }),
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
  // The newest page of the listing comes first: Home leads to the oldest frame that is known by then.
  const first = page.locator('[data-testid="picture"][data-frame-id="f0"]');
  const atHome = async (): Promise<boolean> => {
    await page.keyboard.press('Home');
    return await first.isVisible();
  };
  await expect.poll(atHome, { timeout: 30_000 }).toBe(true);
});

test('a broken-off file stays on the rail with its sentence until it is let go', async () => {
  const { page, station } = await open((fake) => {
    fake.put(sampleFrame('a', 0));
    fake.put(brokenOffFrame('b', 20, 0.41));
  });
  const trouble = page.locator('.rail-trouble');
  await trouble.waitFor();
  expect(await trouble.textContent()).toBe('Broken off at 41 %.');
  station.tell({ type: 'arrival', change: 'let-go', frame: station.frame('b') });
  await trouble.waitFor({ state: 'detached' });
});

test('a full disk is said beside the sentence, with how much else there is; all of it can be read', async () => {
  const { page } = await open((fake) => {
    fake.station = sampleStation({
      secondPlaces: [],
      disk: { freeBytes: 1e9, totalBytes: 960e9, floorBytes: 0 },
    });
    fake.put(sampleFrame('a', 0));
  });
  const disk = 'The disk is nearly full: room for about 40 more frames. Make room now.';
  // 1 GB holds forty frames of 24.6 MB.
  await page.locator('.house-first', { hasText: disk }).waitFor();
  const more = page.getByRole('button', { name: 'and 1 more' });
  await more.click();
  await page.locator('.house li').first().waitFor();
  expect(await page.locator('.house li').allTextContents()).toEqual([
    disk,
    'Every frame is in one place only: no second place is set (--copy with a folder on another disk).',
  ]);
  await page.keyboard.press('Escape');
  await page.locator('.house li').first().waitFor({ state: 'hidden' });
  expect(await more.getAttribute('aria-expanded')).toBe('false');
});

test('the name of an option is on one line, however wide its sentence is', async () => {
  const { page } = await open((fake) => {
    fake.station = sampleStation({ secondPlaces: [] });
    fake.put(sampleFrame('a', 0));
  });
  const name = page.locator('.house-first .option-name');
  await name.waitFor();
  const lines = await name.evaluate((element) => {
    const sentence = element.closest('p');
    return Array.from({ length: 120 }, (_, step) => {
      if (sentence !== null) sentence.style.cssText = `display: block; flex: none; width: ${60 + 2 * step}px`;
      return element.getClientRects().length;
    });
  });
  expect(await name.textContent()).toBe('--copy');
  expect(new Set(lines)).toEqual(new Set([1]));
});

const screens = [
  { width: 1920, height: 1080 },
  { width: 1280, height: 800 },
  { width: 390, height: 844 },
];

/** Everything at once that the card beside the sentence can have to say, under long folder names. */
const troubled = (): Station => {
  const place = (folder: string, code: string, otherDevice: boolean | null) => ({
    folder,
    otherDevice,
    waiting: 4,
    trouble: { code, args: { folder } },
  });
  return sampleStation({
    secondPlaces: [
      place('/media/photographer/TRAVEL-DISK-2031/setside-copies', 'copy.same-device', false),
      place('/mnt/store/of/the/studio/setside-copies', 'copy.away', null),
      place('/mnt/other/store/of/the/studio/setside-copies', 'copy.away', null),
    ],
    disk: { freeBytes: 1e9, totalBytes: 960e9, floorBytes: 0 },
  });
};

test.each(screens)(
  'at $width × $height nothing in the card of the sentence is cut or lies outside of it, however much there is to say',
  async (viewport) => {
    const { page } = await open(
      (fake) => {
        fake.station = troubled();
        fake.put(brokenOffFrame('b', 0, 0.41));
        fake.put(sampleFrame('a', 20));
      },
      { viewport },
    );
    await page.getByRole('button', { name: 'and 3 more' }).waitFor();
    await expect.poll(() => leavingTheCard(page)).toEqual([]);
    await page.locator('.rail-frame').first().click();
    await page.locator(sentence, { hasText: 'Broken off after 10.1 MB' }).waitFor();
    await page.getByRole('button', { name: 'and 2 more' }).waitFor();
    await expect.poll(() => leavingTheCard(page)).toEqual([]);
    await page.getByRole('button', { name: 'and 2 more' }).click();
    expect(await page.locator('.house-sheet li p').allTextContents()).toEqual([
      'The disk is nearly full: room for about 40 more frames. Make room now.',
      expect.stringMatching(/ and .* are not there\. Connect them/),
      expect.stringMatching(/lies on the same disk as the originals/),
    ]);
  },
);

/** What in the card of the sentence is cut off, or lies outside of the card. */
function leavingTheCard(page: Page): Promise<string[]> {
  return page.locator('.sentence-card').evaluate((card) => {
    const box = card.getBoundingClientRect();
    const parts = [...card.querySelectorAll<HTMLElement>('.sentence, .house-first, button')];
    return parts
      .filter((part) => part.checkVisibility() && part.closest('.house-sheet') === null)
      .filter((part) => {
        const { left, right, top, bottom } = part.getBoundingClientRect();
        const inside =
          left >= box.left && right <= box.right + 0.5 && top >= box.top && bottom <= box.bottom + 0.5;
        return (
          !inside || part.scrollHeight > part.clientHeight + 1 || part.scrollWidth > part.clientWidth + 1
        );
      })
      .map((part) => `${part.className} ${part.textContent}`);
  });
}

test('an older file that broke off is named while a newer good frame is shown, and leads to it, until it is made good', async () => {
  const { page, station } = await open(async (fake) => {
    const rendering = await stillLifeJpeg(life, 600, 400);
    fake.put(brokenOffFrame('b', 0, 0.41));
    fake.put(sampleFrame('a', 20), { rendering });
  });
  await page.locator('.house-first', { hasText: 'A_SS0059.DNG broke off and is not all here' }).waitFor();
  await page.getByRole('button', { name: 'Show it' }).click();
  await page.locator(sentence, { hasText: 'Broken off after 10.1 MB' }).waitFor();
  expect(await page.locator('.house-first').count()).toBe(0);
  await page.keyboard.press('End');
  await page.locator('.house-first').waitFor();
  station.change('b', { ...sampleFrame('b', 0), version: 1 });
  await page.locator('.house-first').waitFor({ state: 'detached' });
});

test('on a phone too it is said that copies lie on the same disk as the originals', async () => {
  const folder = '/home/set/copies';
  const trouble = { code: 'copy.same-device', args: { folder } };
  const { page } = await open(
    (fake) => {
      fake.station = sampleStation({ secondPlaces: [{ folder, otherDevice: false, waiting: 0, trouble }] });
      fake.put(sampleFrame('a', 0));
    },
    { viewport: { width: 390, height: 844 } },
  );
  await page.getByText('lies on the same disk as the originals').first().waitFor();
});

test.each(screens)(
  'at $width × $height words are fitted anew when the type comes after them, and when something comes beside them',
  async (viewport) => {
    const { page, station } = await open(
      (fake) => {
        fake.station = sampleStation();
        fake.put(sampleFrame('a', 20));
      },
      { viewport },
    );
    await page.locator(sentence, { hasText: 'Whole: 24.6 MB' }).waitFor();
    await page.evaluate(() => document.fonts.ready);
    // Letters twice as wide stand for any other type; it comes after the words were fitted.
    const setType = (letterSpacing: string): Promise<void> =>
      page.getByTestId('sentence').evaluate((text, spacing) => {
        text.style.letterSpacing = spacing;
        document.fonts.dispatchEvent(new Event('loadingdone'));
      }, letterSpacing);
    await setType('0.55em');
    await expect.poll(() => leavingTheCard(page)).toEqual([]);
    await setType('');
    // What comes beside the sentence takes its room, and the card keeps its size.
    station.tell({ type: 'line', station: troubled() });
    await page.getByRole('button', { name: 'and 2 more' }).waitFor();
    await expect.poll(() => leavingTheCard(page)).toEqual([]);
  },
);
