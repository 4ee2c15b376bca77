import { expect, test } from 'vitest';
import { sampleFile, sampleFrame } from '../testing/sample-frame.ts';
import { asRailHad } from './rail-alike.ts';

const had = [sampleFrame('a', 0), sampleFrame('b', 10)];

test('a mark, a verdict and a further byte move nothing on the rail', () => {
  const [a, b] = had;
  if (a === undefined || b === undefined) throw new Error('two frames are there');
  expect(asRailHad(had, [a, { ...b, mark: 'hero', version: 9 }])).toBe(had);
  expect(asRailHad(had, [{ ...a, files: [sampleFile('a', { size: 7 })] }, b])).toBe(had);
});

test.each([
  ['one more', [...had, sampleFrame('c', 20)]],
  ['a shutter that was read', [had[0], { ...sampleFrame('b', 12) }]],
  ['another name', [had[0], { ...sampleFrame('b', 10), name: 'X.JPG' }]],
  [
    'a file that broke off',
    [had[0], { ...sampleFrame('b', 10), files: [sampleFile('b', { state: 'broken-off' })] }],
  ],
])('%s does', (_what, frames) => {
  const now = frames.filter((frame) => frame !== undefined);
  expect(asRailHad(had, now)).toBe(now);
});
