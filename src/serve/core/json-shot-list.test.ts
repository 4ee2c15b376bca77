import { expect, test } from 'vitest';
import { jobLimits } from '../../job/index.ts';
import { readJsonShotList } from './json-shot-list.ts';

const codesOf = (body: unknown): unknown[] =>
  readJsonShotList(body).bad.map(({ line, finding }) => [line, finding.code]);

test('a shot that is wrong is named by its place and why, and the others are read', () => {
  const read = readJsonShotList({
    shots: [
      { name: ' Mug ', heroes: 2, price: 9 },
      { nam: 'Jug' },
      { name: 'Jug', heroes: 120 },
      { id: 'a/b', name: 'Bowl' },
      { name: 'x'.repeat(jobLimits.nameCharactersMax + 1) },
      7,
      { name: 'Cup', description: 'a\r\nb' },
    ],
    season: 'autumn',
  });
  expect(read.shots).toEqual([
    expect.objectContaining({ line: 1, shot: { name: 'Mug', heroes: 2 } }),
    expect.objectContaining({ line: 7, shot: { name: 'Cup', description: 'a\nb' } }),
  ]);
  expect(read.bad.map(({ line, finding }) => [line, finding.code, finding.args])).toEqual([
    [2, 'shot-list.no-name', { line: 2 }],
    [3, 'shot-list.bad-cell', { line: 3, column: 'heroes', cell: '120' }],
    [4, 'shot-list.bad-id', { line: 4, id: 'a/b' }],
    [5, 'shot-list.name-too-long', { line: 5, max: jobLimits.nameCharactersMax }],
    [6, 'shot-list.no-name', { line: 6 }],
  ]);
  expect(read.unknown).toEqual(['season', 'price']);
});

test('a list may stand alone; what is no list is said to be none', () => {
  expect(readJsonShotList([{ name: 'Mug' }]).shots).toHaveLength(1);
  for (const body of [null, 7, 'Mug', {}, { shots: { name: 'Mug' } }])
    expect(readJsonShotList(body).findings).toEqual([{ code: 'shot-list.no-shots', args: {} }]);
});

test('as many are read as of a table, and the rest is said to be left', () => {
  const list = Array.from({ length: jobLimits.shotListLinesMax + 1 }, () => ({}));
  expect(readJsonShotList(list.slice(1)).findings).toEqual([]);
  expect(readJsonShotList(list).findings).toMatchObject([
    { code: 'shot-list.lines-not-read', args: { count: 1 } },
  ]);
  expect(codesOf(list)).toHaveLength(jobLimits.shotListLinesMax);
});
