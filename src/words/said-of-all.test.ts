import { expect, test } from 'vitest';
import { namesOfSome, saidOfFiles } from './said-of-all.ts';
import { sentence } from './sentences.ts';

const noIim = { code: 'deliver.no-iim', args: { format: 'png' } };
const small = (percent: number) => ({
  code: 'deliver.stands-small',
  args: { percent, widthPx: 2000, heightPx: 2000 },
});

test('what every file has in the same words is said once, the rest of each', () => {
  expect(saidOfFiles([[noIim, small(8)], [noIim], [noIim, small(3)]])).toEqual({
    ofAll: [sentence(noIim)],
    ofSome: [],
    ofEach: [[sentence(small(8))], [], [sentence(small(3))]],
  });
});

test('one code with other figures is not the same, and one file is no “all”', () => {
  expect(saidOfFiles([[small(8)], [small(3)]]).ofAll).toEqual([]);
  expect(saidOfFiles([[noIim]])).toEqual({ ofAll: [], ofSome: [], ofEach: [[sentence(noIim)]] });
  expect(saidOfFiles([])).toEqual({ ofAll: [], ofSome: [], ofEach: [] });
});

test('what several files have in the same words is said once, with which; of thousands the first ones are named', () => {
  expect(saidOfFiles([[noIim, small(8)], [], [noIim]])).toEqual({
    ofAll: [],
    ofSome: [{ text: sentence(noIim), files: [0, 2] }],
    ofEach: [[sentence(small(8))], [], []],
  });
  expect(namesOfSome(['a', 'b', 'c', 'd'])).toBe('a, b, c, d');
  expect(namesOfSome(['a', 'b', 'c', 'd', 'e'])).toBe('a, b, c and 2 more');
});
