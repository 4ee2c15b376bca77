import { expect, test } from 'vitest';
import type { Frame } from '../../../contract/index.ts';
import type { Mark } from '../../../facts/index.ts';
import { sampleFrame } from '../../testing/sample-frame.ts';
import { noFilter, type SheetFilter, type SheetSort } from './sheet-filter.ts';
import { movedBy, movedOnto, reordered, type SheetJob, sheetGroups } from './sheet-groups.ts';

const job: SheetJob = {
  code: 'QM-26',
  shots: [
    { id: 'mug', name: 'Mug', order: ['d', 'b', 'gone'] },
    { id: 'jug', name: 'Jug', order: [] },
    { id: 'bowl', name: 'Bowl', order: [] },
  ],
};

function frame(id: string, second: number, shot: string | null, mark: Mark = 'none', camera = 'cam1'): Frame {
  return { ...sampleFrame(id, second, { mark, camera, name: `QM_${id}.DNG` }), job: 'QM-26', shot };
}

const frames: Frame[] = [
  frame('a', 0, 'mug', 'hero'),
  frame('b', 10, 'mug', 'select'),
  frame('c', 20, 'mug', 'out', 'cam2'),
  frame('d', 30, 'mug', 'select'),
  frame('e', 40, 'mug', 'select'),
  frame('f', 50, 'jug'),
  frame('g', 60, null, 'alternate'),
  frame('h', 70, 'old'),
  { ...frame('z', 80, 'mug'), job: 'OTHER' },
  // A rehearsal's, which is no frame of the shoot.
  { ...frame('r', 90, 'mug'), name: 'REHEARSE.JPG', purpose: 'test' },
];

function lying(filter: Partial<SheetFilter> = {}, sort: SheetSort = 'time', byShot = true): string[] {
  return sheetGroups(job, frames, { filter: { ...noFilter, ...filter }, sort, byShot }).map(
    ({ name, id, frames: own, whole }) =>
      `${name || id || '-'} ${own.map((each) => each.id).join('')} of ${whole}`,
  );
}

test('frames lie under their shots as the list has them, then those of shots that are gone, and of none; behind them what has no frame', () => {
  expect(lying()).toEqual(['Mug abcde of 5', 'Jug f of 1', 'old h of 1', '- g of 1', 'Bowl  of 0']);
});

test('of the shown frames of no shot it is counted why, and of nothing else', () => {
  const late = [
    { ...frame('i', 92, null), shotless: 'no-current' as const },
    { ...frame('j', 93, null), shotless: 'by-hand' as const },
    { ...frame('k', 94, null, 'out'), shotless: 'by-hand' as const },
  ];
  const counts = (filter: Partial<SheetFilter>, byShot = true) =>
    sheetGroups(job, [...frames, ...late], { filter: { ...noFilter, ...filter }, sort: 'time', byShot }).map(
      ({ id, shotless }) => [id, Object.fromEntries(shotless)],
    );
  expect(counts({})).toEqual([
    ['mug', {}],
    ['jug', {}],
    ['old', {}],
    ['', { 'no-current': 1, 'by-hand': 2 }],
    ['bowl', {}],
  ]);
  expect(counts({ mark: 'out', shot: '' })).toEqual([['', { 'by-hand': 1 }]]);
  expect(counts({}, false)).toEqual([['', {}]]);
});

test('words are looked for in the name of the shot too', () => {
  expect(lying({ text: 'jug' })).toEqual(['Jug f of 1']);
  expect(lying({ text: 'jug qm_a' })).toEqual([]);
});

test('words are found with accents or without, in great letters or small ones', () => {
  const greek = { ...job, shots: [{ id: 'mug', name: 'Κύπελλος', order: [] }] };
  for (const text of ['κύπ', 'κυπελλοσ', 'ΚΥΠΕΛΛΟΣ', 'Κύπελλος'])
    expect(
      sheetGroups(greek, frames, { filter: { ...noFilter, text }, sort: 'time', byShot: true }).length,
      text,
    ).toBe(1);
  expect(lying({ text: 'múg' })).toEqual(['Mug abcde of 5']);
});

test('heroes and selects stand in the order somebody gave, the others behind as they were taken', () => {
  const [mug] = sheetGroups(job, frames, { filter: noFilter, sort: 'time', byShot: true });
  expect(mug?.heroes.map(({ id }) => id)).toEqual(['a']);
  expect(mug?.selects.map(({ id }) => id)).toEqual(['d', 'b', 'e']);
});

test.each<[string, Partial<SheetFilter>, string[]]>([
  ['a mark', { mark: 'select' }, ['Mug bde of 5']],
  ['what is chosen', { mark: 'chosen' }, ['Mug abde of 5', '- g of 1']],
  ['a camera', { camera: 'cam2' }, ['Mug c of 5']],
  ['a shot', { shot: 'jug' }, ['Jug f of 1']],
  ['no shot', { shot: '' }, ['- g of 1']],
  ['words', { text: 'qm_F' }, ['Jug f of 1']],
  ['two words that both must stand', { text: 'qm_ cam2' }, ['Mug c of 5']],
  ['what nobody is', { text: 'nothing' }, []],
])('only %s', (_what, filter, expected) => {
  expect(lying(filter)).toEqual(expected);
});

test('a time of day asks by the clock on the wall, and from late to early over midnight', () => {
  const at = (hour: number): Frame => {
    const local = new Date(2026, 9, 2, hour, 30).getTime();
    const utc = new Date(local).toISOString();
    const made = frame(`h${hour}`, 0, 'mug');
    return { ...made, times: { ...made.times, shutter: utc, began: utc, firstByte: utc } };
  };
  const day = [at(1), at(9), at(14), at(23)];
  const asked = (fromTime: string, toTime: string): string[] =>
    sheetGroups(job, day, { filter: { ...noFilter, fromTime, toTime }, sort: 'time', byShot: true }).flatMap(
      (group) => group.frames.map(({ id }) => id),
    );
  expect(asked('09:00', '14:30')).toEqual(['h9', 'h14']);
  expect(asked('22:00', '02:00')).toEqual(['h1', 'h23']);
  expect(asked('', '08:00')).toEqual(['h1']);
});

test.each<[SheetSort, string]>([
  ['newest', 'hgfedcba'],
  ['mark', 'abdegfhc'],
  ['camera', 'abdefghc'],
  ['name', 'abcdefgh'],
])('all together they lie %s', (sort, expected) => {
  expect(lying({}, sort, false)).toEqual([`- ${expected} of 8`]);
});

test('a chosen frame goes a step, or where another stands; at the end there is no further step', () => {
  expect(movedBy(['a', 'b', 'c'], 'a', 1)).toEqual(['b', 'a', 'c']);
  expect(movedBy(['a', 'b', 'c'], 'c', 1)).toBeNull();
  expect(movedBy(['a', 'b'], 'x', 1)).toBeNull();
  expect(movedOnto(['a', 'b', 'c'], 'c', 'a')).toEqual(['c', 'a', 'b']);
  expect(movedOnto(['a', 'b', 'c'], 'a', 'b')).toEqual(['b', 'a', 'c']);
  expect(movedOnto(['a', 'b', 'c'], 'a', 'c')).toEqual(['b', 'c', 'a']);
});

test('an order is said of every chosen frame, the hidden ones too, which stay where they stand', () => {
  const [mug] = sheetGroups(job, frames, {
    filter: { ...noFilter, text: 'qm_d' },
    sort: 'time',
    byShot: true,
  });
  expect(mug?.selects.map(({ id }) => id)).toEqual(['d']);
  expect(mug?.order).toEqual(['a', 'd', 'b', 'e']);
  // Of the selects d b e only d and e are shown: they change places, and b stays between them.
  expect(reordered(['a', 'd', 'b', 'e'], ['e', 'd'])).toEqual(['a', 'e', 'b', 'd']);
});
