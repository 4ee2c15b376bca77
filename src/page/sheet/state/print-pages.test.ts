import { expect, test } from 'vitest';
import type { Frame } from '../../../contract/index.ts';
import { sampleFrame } from '../../testing/sample-frame.ts';
import { type PrintWish, printedMax, printPages } from './print-pages.ts';
import { noFilter } from './sheet-filter.ts';
import { sheetGroups } from './sheet-groups.ts';

const job = { code: 'QM-26', shots: [{ id: 'mug', name: 'Mug', order: ['d', 'a', 'c', 'b'] }] };
const frame = (id: string, second: number, mark: Frame['mark'], more: Partial<Frame> = {}): Frame => ({
  ...sampleFrame(id, second, { mark, ...more }),
  job: 'QM-26',
  shot: 'mug',
});
const frames = [
  frame('a', 0, 'hero'),
  frame('b', 1, 'select'),
  frame('c', 2, 'select'),
  frame('d', 3, 'hero'),
  frame('e', 4, 'out'),
  frame('f', 5, 'select', { share: 'kept-back' }),
];
const printed = (wish: Partial<PrintWish>, own = frames): string[] =>
  printPages(sheetGroups(job, own, { filter: noFilter, sort: 'time', byShot: true }), {
    ...{ only: null, inOrder: true, forClient: false },
    ...wish,
  }).parts.map(({ heroes, others }) =>
    [heroes, others].map((some) => some.map(({ id }) => id).join('')).join(' '),
  );

test('each frame is printed once: heroes large, then all others, in the order that counts or as they lie', () => {
  expect(printed({})).toEqual(['da cbfe']);
  expect(printed({ inOrder: false })).toEqual(['da bcef']);
  expect(printed({ only: new Set(['a', 'b']) })).toEqual(['a b']);
});

test('a client gets what guests see: nothing that is out, nothing that is kept back', () => {
  expect(printed({ forClient: true })).toEqual(['da cb']);
  expect(printed({ forClient: true, only: new Set(['e']) })).toEqual([]);
});

test('so many are one print, and that there are more is known', () => {
  const some = (count: number): Frame[] =>
    Array.from({ length: count }, (_, index) => frame(`n${index}`, index, index === 0 ? 'hero' : 'none'));
  const pages = (count: number) =>
    printPages(sheetGroups(job, some(count), { filter: noFilter, sort: 'time', byShot: true }), {
      only: null,
      inOrder: true,
      forClient: false,
    });
  expect(pages(printedMax)).toMatchObject({ cut: false });
  const over = pages(printedMax + 1);
  expect(over.cut).toBe(true);
  expect(over.parts[0]?.others.length).toBe(printedMax - 1);
});
