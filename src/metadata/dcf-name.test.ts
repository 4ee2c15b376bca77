import { describe, expect, test } from 'vitest';
import { counterOf, isDcfDirectoryName, isDcfFileName } from './dcf-name.ts';

/** DCF 2.0 (CIPA DC-009-2010); the cases are from equipment manuals that print its rules. */
const files: readonly (readonly [string, boolean, number | null])[] = [
  ['ABCD0001.JPG', true, 1],
  ['_DSC9999.JPG', true, 9999],
  ['IMG_0420.JPG', true, 420],
  ['P1230045.JPG', true, 45],
  ['ABCD0000.JPG', false, null], // number 0000
  ['ABC0001.JPG', false, null], // three free characters
  ['ABCD00001.JPG', false, null], // five digits
  ['AB D0001.JPG', false, null], // space
  ['ÄBCD0001.JPG', false, null], // not in the character set
];

test.each(files)('%s: valid %s, counter %s', (name, valid, counter) => {
  expect(isDcfFileName(name)).toBe(valid);
  expect(counterOf(name)).toBe(counter);
});

test.each([
  ['100ABCDE', true],
  ['999_____', true],
  ['101STUDI', true],
  ['099ABCDE', false],
  ['100ABC', false],
  ['100AB-DE', false],
  ['100abcde', false],
  ['DCIM', false],
])('folder %s: valid %s', (name, valid) => {
  expect(isDcfDirectoryName(name)).toBe(valid);
});

test('a sidecar has no number of its own: it names that of its picture', () => {
  expect(counterOf('ABCD0099.XMP')).toBeNull();
  expect(counterOf('abcd0099.xmp')).toBeNull();
});

describe('a counter is also read', () => {
  // What transfers make of such names; common practice, no source.
  test.each([
    ['img_0420.jpg', 420],
    ['Img_0420.jpeg', 420],
    ['STDN0007.dng', 7],
    ['IMG_0420 (2).JPG', 420],
    ['IMG_0420(12).JPG', 420],
    ['IMG_0420-1.JPG', 420],
  ])('%s is %i, though no DCF name', (name, counter) => {
    expect(isDcfFileName(name)).toBe(false);
    expect(counterOf(name)).toBe(counter);
  });

  test.each([
    '20261001_120000.jpg',
    'notes.txt',
    'IMG_0420',
    'IMG_0420.JPG.part',
    'folder/IMG_0420.JPG',
    'IMG_0420 (1234).JPG',
    'IMG_0420\n.JPG',
    '',
  ])('but not from %j', (name) => {
    expect(counterOf(name)).toBeNull();
  });
});
