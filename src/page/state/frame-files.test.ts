import { expect, test } from 'vitest';
import { sampleFile, sampleFrame } from '../testing/sample-frame.ts';
import { filesName } from './frame-files.ts';

const named = (name: string, ...files: [string, number][]): string =>
  filesName(sampleFrame('a', 0, { name, files: files.map(([file, size]) => sampleFile(file, { size })) }));

test('a frame of raw and JPEG is called by both, the larger first, whichever came first', () => {
  expect(named('QM0002.JPG', ['QM0002.JPG', 400], ['QM0002.DNG', 4600])).toBe('QM0002.DNG + JPG');
  expect(named('QM0002.DNG', ['QM0002.DNG', 4600], ['QM0002.JPG', 400], ['QM0002.XMP', 4])).toBe(
    'QM0002.DNG + JPG + XMP',
  );
});

test('a frame of one file is called by it, and a file sent twice is named once', () => {
  expect(named('A.DNG', ['A.DNG', 10])).toBe('A.DNG');
  expect(named('A.DNG', ['A.DNG', 10], ['A.DNG', 7])).toBe('A.DNG');
  expect(named('.hidden', ['.hidden', 10])).toBe('.hidden');
});

test('a file of another stem is named in full', () => {
  expect(named('A.DNG', ['A.DNG', 10], ['A (2).JPG', 7])).toBe('A.DNG + A (2).JPG');
  expect(named('A.DNG', ['A.DNG', 10], ['A', 7])).toBe('A.DNG + A');
});
