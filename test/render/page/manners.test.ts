import { AxeBuilder } from '@axe-core/playwright';
import { expect, test } from 'vitest';
import { sampleFrame, sampleStation } from '../../../src/page/testing/sample-frame.ts';
import { arrivingFrame, brokenOffFrame, shootDay, textFrame, withFirstView } from './day.ts';
import { type Scene, stage } from './stage.ts';
import { stillLifeJpeg } from './still-life.ts';

const { open } = stage();
const life = { place: 0.4, hue: 30, light: 1 };

/** WCAG 2.0 to 2.2, levels A and AA, as axe-core tags its rules. */
const wcag = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

async function violations({ page }: Scene): Promise<string[]> {
  const { violations: found } = await new AxeBuilder({ page }).withTags([...wcag, 'best-practice']).analyze();
  return found.flatMap((rule) => rule.nodes.map((node) => `${rule.id}: ${node.html.slice(0, 120)}`));
}

async function busySet(): Promise<Scene> {
  const scene = await open(async (station) => {
    await shootDay(station, { judged: true, cameras: 2 });
    station.station = { ...station.station, secondPlaces: [] };
    station.put(brokenOffFrame('n0', 2950, 0.41));
    station.put(textFrame('n1', 2955));
    station.put(withFirstView(arrivingFrame('n2', 2990, 0.4), 0.4), {
      firstView: await stillLifeJpeg(life, 640, 427),
    });
  });
  await scene.page.locator('[data-testid="picture"][data-frame-id="n2"]').waitFor();
  return scene;
}

test('axe finds nothing on a busy set, on either surround, near and far, with a verdict open', async () => {
  const scene = await busySet();
  expect(await violations(scene)).toEqual([]);
  await scene.page.keyboard.press('1');
  await scene.page.keyboard.press('u');
  expect(await violations(scene)).toEqual([]);
  await scene.page.keyboard.press('m');
  expect(await violations(scene)).toEqual([]);
});

test('axe finds nothing before the first frame, nor on the cards', async () => {
  const scene = await open(() => undefined);
  await scene.page.locator('.first-steps').waitFor();
  expect(await violations(scene)).toEqual([]);
  await scene.page.keyboard.press('e');
  await scene.page.locator('dialog[open]').waitFor();
  expect(await violations(scene)).toEqual([]);
  await scene.page.keyboard.press('Escape');
  await scene.page.keyboard.press('?');
  await scene.page.locator('dialog[open]').waitFor();
  expect(await violations(scene)).toEqual([]);
});

test('axe finds nothing on a screen as narrow as a phone’s', async () => {
  const scene = await open(
    async (station) => {
      station.put(sampleFrame('a', 0), { rendering: await stillLifeJpeg(life, 600, 400) });
    },
    { viewport: { width: 390, height: 844 } },
  );
  await scene.page.locator('[data-testid="picture"][data-frame-id="a"]').waitFor();
  expect(await violations(scene)).toEqual([]);
  const wide = await scene.page.evaluate(() => document.documentElement.scrollWidth);
  expect(wide).toBeLessThanOrEqual(390);
});

test('the whole page can be worked by keyboard alone', async () => {
  const { page, station } = await open((fake) => shootDay(fake, { judged: true, cameras: 1 }));
  const shown = (id: string) => page.locator(`[data-testid="picture"][data-frame-id="${id}"]`).waitFor();
  await shown('f16');
  await page.keyboard.press('ArrowUp');
  await shown('f15');
  await page.keyboard.press('ArrowDown');
  await shown('f16');
  await page.keyboard.press('Home');
  await shown('f0');
  await page.keyboard.press('End');
  await shown('f16');
  await page.keyboard.press('h');
  await page.locator('.rail-frame[data-mark="hero"][aria-current="true"]').waitFor();
  expect(station.patches).toEqual([{ mark: 'hero', seen: { mark: 'none' } }]);
  await page.keyboard.press('h');
  await page.locator('.rail-frame[data-mark="none"][aria-current="true"]').waitFor();
  // Every control is reached by Tab, and says where one is.
  const reached = await tabThrough(page, 40);
  for (const name of [
    'Far view',
    'Dim surround',
    'Camera sheet',
    'Keys',
    'Hero',
    'Select',
    'Alternate',
    'Out',
  ])
    expect(reached).toContain(name);
  expect(reached.some((name) => name.startsWith('A_SS0059.DNG'))).toBe(true);
  expect(reached.filter((name) => /^(Arrived|Sharp|Exposed|In place|True)/.test(name))).toHaveLength(5);
});

test('letters can be switched off, so that a voice or a stray hand changes nothing (WCAG 2.2, 2.1.4)', async () => {
  const { page, station } = await open((fake) => fake.put(sampleFrame('a', 0)));
  await page.locator('.rail-frame').waitFor();
  await page.keyboard.press('?');
  await page.getByLabel('Letter keys').press('Space');
  await page.keyboard.press('Escape');
  await page.keyboard.press('h');
  await page.keyboard.press('u');
  expect(await page.locator('.page').getAttribute('data-surround')).toBe('grey');
  expect(station.patches).toEqual([]);
});

test('a mark by click is sent, and shown when the station has taken it', async () => {
  const { page, station } = await open((fake) => fake.put(sampleFrame('a', 0)));
  await page.getByRole('button', { name: 'Select', exact: true }).click();
  await page.locator('.rail-mark', { hasText: 'Select' }).waitFor();
  expect(station.patches).toEqual([{ mark: 'select', seen: { mark: 'none' } }]);
});

test('in the far view every verdict’s word is at least 96 px at 1080p (cap height of 16 minutes of arc at 4 m)', async () => {
  const { page } = await open((fake) => shootDay(fake, { judged: true, cameras: 1 }), {
    viewport: { width: 1920, height: 1080 },
  });
  await page.locator('[data-testid="picture"][data-frame-id="f16"]').waitFor();
  await page.getByRole('button', { name: 'Far view' }).click();
  const words = await page.locator('.verdict-word').evaluateAll((elements) =>
    elements.map((element) => ({
      sizePx: Number.parseFloat(getComputedStyle(element).fontSize),
      fits: element.scrollWidth <= element.clientWidth || element.getBoundingClientRect().right <= innerWidth,
      right: element.getBoundingClientRect().right,
      cardRight: element.closest('.verdict-card')?.getBoundingClientRect().right ?? 0,
    })),
  );
  expect(words).toHaveLength(5);
  for (const word of words) {
    expect(word.sizePx).toBeGreaterThanOrEqual(96);
    expect(word.right).toBeLessThanOrEqual(word.cardRight);
  }
});

test('the band lies below the picture, five cards in one row, the rail at the left, the sentence above', async () => {
  const { page } = await open((fake) => shootDay(fake, { judged: true, cameras: 1 }));
  await page.locator('[data-testid="picture"][data-frame-id="f16"]').waitFor();
  const boxOf = async (selector: string) => {
    const box = await page.locator(selector).first().boundingBox();
    if (box === null) throw new Error(`expected ${selector} to be on the page`);
    return box;
  };
  const picture = await boxOf('[data-testid="picture"]');
  const [sentence, shots, rail] = [
    await boxOf('.sentence-card'),
    await boxOf('.shots'),
    await boxOf('.rail'),
  ];
  const tops = await page
    .locator('.verdict-card')
    .evaluateAll((cards) => cards.map((card) => card.getBoundingClientRect().top));
  expect(new Set(tops).size).toBe(1);
  expect(tops[0]).toBeGreaterThan(picture.y + picture.height);
  expect(sentence.y + sentence.height).toBeLessThan(picture.y);
  expect(shots.y + shots.height).toBeLessThan(sentence.y);
  expect(rail.x + rail.width).toBeLessThan(picture.x);
});

test('the surround is neutral, L* 50 by day and L* 20 when dimmed (CIE 1976 from sRGB, IEC 61966-2-1)', async () => {
  const { page } = await open((fake) => fake.put(sampleFrame('a', 0)));
  const surround = () =>
    page.locator('.page').evaluate((element) => getComputedStyle(element).backgroundColor);
  await page.locator('.rail-frame').waitFor();
  expect(lightnessOf(await surround())).toBeCloseTo(50, 0);
  await page.keyboard.press('u');
  expect(lightnessOf(await surround())).toBeCloseTo(20, 0);
});

test('the sentence is told to screen readers once per gist, not with every percent', async () => {
  const { page, station } = await open((fake) => fake.put(withFirstView(arrivingFrame('a', 0, 0.2), 0.2)));
  const live = page.locator('[aria-live="polite"]');
  await live.getByText('Arriving: 4.9 MB').waitFor();
  station.tell({
    type: 'arrival',
    change: 'progress',
    frame: { ...withFirstView(arrivingFrame('a', 0, 0.6), 0.2), version: 5 },
  });
  await page.getByTestId('sentence').getByText('60 %').waitFor();
  expect(await live.textContent()).toContain('4.9 MB');
  station.tell({ type: 'frame', change: 'kept', frame: sampleFrame('a', 0, { version: 6 }) });
  await live.getByText('Whole: 24.6 MB').waitFor();
});

test('with no job open the page says where frames go', async () => {
  const { page } = await open((fake) => {
    fake.station = sampleStation({ job: null });
    fake.put(sampleFrame('a', 0));
  });
  await page.getByText('No job is open: frames go to the tray “unsorted”.').waitFor();
});

/** The names of what Tab reaches, in order; each must show that it has the focus. */
async function tabThrough(page: Scene['page'], presses: number): Promise<string[]> {
  const names: string[] = [];
  for (let press = 0; press < presses; press += 1) {
    await page.keyboard.press('Tab');
    const reached = await page.evaluate(() => {
      const element = document.activeElement;
      if (element === null || element === document.body) return null;
      const outline = getComputedStyle(element).outlineStyle;
      return {
        name: element.getAttribute('aria-label') ?? element.textContent ?? '',
        seen: outline !== 'none',
      };
    });
    if (reached === null) continue;
    expect(reached.seen, `focus on ${reached.name}`).toBe(true);
    names.push(reached.name);
  }
  return names;
}

function lightnessOf(rgb: string): number {
  const [red = 0, green = -1, blue = -2] = (rgb.match(/\d+/g) ?? []).map(Number);
  expect([green, blue]).toEqual([red, red]);
  const encoded = red / 255;
  const linear = encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4;
  return 116 * Math.cbrt(linear) - 16;
}
