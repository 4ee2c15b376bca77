import { expect, test } from 'vitest';
import { withShotsRenamed } from './shots-renamed.ts';

const said = (shots: Record<string, string>): string =>
  JSON.stringify({
    version: 1,
    title: 'Quillmere',
    all: { headline: 'h' },
    shots: Object.fromEntries(Object.entries(shots).map(([name, caption]) => [name, { caption }])),
  });

/** What is said of each shot afterwards. */
function after(
  shots: Record<string, string>,
  renamed: Record<string, string>,
  stay: readonly string[] = [],
): unknown {
  const text = withShotsRenamed(said(shots), new Map(Object.entries(renamed)), new Set(stay));
  const read = JSON.parse(text) as {
    readonly all: unknown;
    readonly shots: Record<string, { caption: string }>;
  };
  expect(read.all).toEqual({ headline: 'h' });
  return Object.fromEntries(Object.entries(read.shots).map(([name, { caption }]) => [name, caption]));
}

test('what is said of a shot goes along with its name', () => {
  expect(after({ Mug: 'a', Plate: 'b' }, { Mug: 'Cup' })).toEqual({ Cup: 'a', Plate: 'b' });
});

test('two shots that swap their names swap their words', () => {
  expect(after({ Mug: 'a', Plate: 'b' }, { Mug: 'Plate', Plate: 'Mug' })).toEqual({ Plate: 'a', Mug: 'b' });
});

test('a chain of names moves each by one', () => {
  expect(after({ Mug: 'a', Plate: 'b' }, { Mug: 'Plate', Plate: 'Bowl' })).toEqual({ Plate: 'a', Bowl: 'b' });
});

test('a name that another shot has still keeps its words, and the new name has them too', () => {
  expect(after({ Mug: 'a' }, { Mug: 'Cup' }, ['Mug'])).toEqual({ Mug: 'a', Cup: 'a' });
});

test('words that are kept for the new name stay, and the old ones stay where they are', () => {
  expect(after({ Mug: 'a', Cup: 'b' }, { Mug: 'Cup' })).toEqual({ Mug: 'a', Cup: 'b' });
  const shots = { Mug: 'a', Cup: 'b', Plate: 'c' };
  expect(after(shots, { Mug: 'Cup', Plate: 'Dish' })).toEqual({ Mug: 'a', Cup: 'b', Dish: 'c' });
});

test('a text of which nothing moves is the same, and so is one that is no sheet', () => {
  const text = said({ Mug: 'a' });
  expect(withShotsRenamed(text, new Map([['Plate', 'Dish']]), new Set())).toBe(text);
  expect(withShotsRenamed('{"version":9}', new Map([['Mug', 'Cup']]), new Set())).toBe('{"version":9}');
});
