import { expect, test } from 'vitest';
import { stage } from './stage.ts';

const { open } = stage();

/**
 * The type's own letters are as wide as its own and not as the fallback's, which is of one width here: Ж and ι differ in any type that is
 * not (common knowledge of type, no source).
 */
test.each([
  ['Greek', 'Κύπελλο'],
  ['Cyrillic', 'Кружка'],
  ['Latin with accents', 'Łyżka'],
])('%s stands in the page’s own type, in both its weights', async (_script, word) => {
  const { page } = await open(() => undefined);
  const widths = await page.evaluate(async (text) => {
    const pen = document.createElement('canvas').getContext('2d');
    const widthIn = (font: string): number => {
      if (pen === null) return 0;
      pen.font = font;
      return pen.measureText(text).width;
    };
    const own = await Promise.all(
      [400, 500].map(async (weight) => {
        await document.fonts.load(`${weight} 40px "Fira Sans"`, text);
        return widthIn(`${weight} 40px "Fira Sans", monospace`);
      }),
    );
    return { own, fallback: widthIn('40px monospace') };
  }, word);
  expect(new Set([...widths.own, widths.fallback]).size).toBe(3);
});

test('a page in Latin letters fetches their part of the type alone', async () => {
  const { page } = await open(() => undefined);
  const parts = () =>
    page.evaluate(() =>
      performance
        .getEntriesByType('resource')
        .map(({ name }) => name.split('/').at(-1) ?? '')
        .filter((name) => name.startsWith('fira-sans')),
    );
  await expect.poll(async () => (await parts()).length).toBeGreaterThan(0);
  await page.evaluate(() => document.fonts.ready);
  const fetched = await parts();
  expect(fetched.filter((name) => !/^fira-sans-latin-[45]00/.test(name))).toEqual([]);
});
