import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { sampleFrame } from '../../../src/page/testing/sample-frame.ts';
import { brokenOffFrame, shootDay, textFrame } from './day.ts';
import { stage } from './stage.ts';
import { stillLifeJpeg } from './still-life.ts';

const { open } = stage();
const viewport = { width: 390, height: 844 };
const life = { place: 0.4, hue: 30, light: 1 };

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

async function boxOf(page: Page, selector: string): Promise<Box> {
  const box = await page.locator(selector).boundingBox();
  if (box === null) throw new Error(`expected ${selector} to be on the page`);
  return box;
}

test.each([
  ['NOTES.TXT', 'NOTES'],
  ['A_VERY_LONG_NAME_OF_A_FILE_THAT_SOMEBODY_PUT_ON_THE_CARD_BY_MISTAKE_2031_05_06.TXT', 'A_…5_06'],
])(
  'on a phone the card of a frame without a picture keeps to the picture’s place: %s',
  async (name, short) => {
    const { page } = await open((station) => station.put({ ...textFrame('a', 0), name }), { viewport });
    await page.locator('.no-picture').waitFor();
    await page.evaluate(() => document.fonts.ready);
    const area = await boxOf(page, '.picture-area');
    const card = await boxOf(page, '.no-picture');
    expect(card.y).toBeGreaterThanOrEqual(area.y);
    expect(card.y + card.height).toBeLessThanOrEqual(area.y + area.height);
    expect(card.x).toBeGreaterThanOrEqual(area.x);
    expect(card.x + card.width).toBeLessThanOrEqual(area.x + area.width);
    // A long name keeps the end that tells it from the next, and none of what is shown is cut.
    const onRail = page.locator('.rail-name span:last-child');
    expect(await onRail.textContent()).toBe(short);
    expect(await onRail.evaluate((one) => one.scrollWidth > one.clientWidth)).toBe(false);
    // What the file is stays readable under a name of any length.
    const last = await boxOf(page, '.no-picture p:last-child');
    expect(last.y + last.height).toBeLessThanOrEqual(card.y + card.height);
  },
);

test('on a phone three quarters of what is looked at closely lie free of the small map and the buttons', async () => {
  const { page } = await open(
    async (station) => station.put(sampleFrame('a', 0), { rendering: await stillLifeJpeg(life, 1500, 1000) }),
    { viewport },
  );
  await page.locator('[data-testid="picture"][data-frame-id="a"]').waitFor();
  await page.getByRole('button', { name: 'Pixel for pixel, 1:1' }).click();
  await page.getByTestId('overview').waitFor();
  const areaOf = ({ width, height }: Box): number => width * height;
  const covered = areaOf(await boxOf(page, '.overview')) + areaOf(await boxOf(page, '.zoom'));
  expect(covered / areaOf(await boxOf(page, '.picture-area'))).toBeLessThan(0.25);
});

test('on a phone the job and the demo are named, what broke off is led to, and the picture keeps clear of its caption', async () => {
  const { page } = await open(
    async (station) => {
      station.put(brokenOffFrame('broken', 0, 0.4));
      await shootDay(station, { judged: true, cameras: 1 });
      station.station = { ...station.station, demo: true, secondPlaces: [] };
    },
    { viewport },
  );
  await page.locator('[data-testid="picture"][data-state="rendered"]').waitFor();
  expect(await page.locator('.job strong').isVisible()).toBe(true);
  expect(await page.locator('.job em', { hasText: 'demo, all invented' }).isVisible()).toBe(true);
  expect(await page.locator('.house-ways').getByRole('button', { name: 'Show it' }).isVisible()).toBe(true);
  const picture = await boxOf(page, '.picture');
  const caption = await boxOf(page, '.caption');
  expect(caption.y - picture.y - picture.height).toBeGreaterThan(4);
});
