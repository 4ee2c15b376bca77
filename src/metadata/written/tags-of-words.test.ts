import { describe, expect, test } from 'vitest';
import { differencesIn, noPictureWords, nowhere, tagsOfWords } from './index.ts';

const words = {
  ...noPictureWords,
  caption: 'Blue mug – glazed',
  creators: ['Ada', 'Bo'],
  copyright: '© 2026',
  createdAt: '2026-11-05T10:12:13+01:00',
};
const nothing = { serialNumbers: false, position: false };

/** IPTC Photo Metadata Standard 2023.2, mapping of properties; MWG guidelines 2.0 for what goes together (from memory). */
test('one thing is said alike in XMP, IIM and Exif', () => {
  const { tags, cut } = tagsOfWords(words, true);
  expect(cut).toEqual([]);
  expect(Object.fromEntries(tags)).toEqual({
    'XMP-dc:Description': 'Blue mug – glazed',
    'XMP-dc:Creator': ['Ada', 'Bo'],
    'XMP-dc:Rights': '© 2026',
    'XMP-photoshop:DateCreated': '2026:11:05 10:12:13+01:00',
    'IFD0:ImageDescription': 'Blue mug – glazed',
    'IFD0:Artist': 'Ada; Bo',
    'IFD0:Copyright': '© 2026',
    'ExifIFD:DateTimeOriginal': '2026:11:05 10:12:13',
    'ExifIFD:OffsetTimeOriginal': '+01:00',
    'IPTC:CodedCharacterSet': 'UTF8',
    'IPTC:ApplicationRecordVersion': '4',
    'IPTC:Caption-Abstract': 'Blue mug – glazed',
    'IPTC:By-line': ['Ada', 'Bo'],
    'IPTC:CopyrightNotice': '© 2026',
    'IPTC:DateCreated': '2026:11:05',
    'IPTC:TimeCreated': '10:12:13+01:00',
  });
});

test('a format without a place for IIM has none, and nothing said is nothing written', () => {
  const { tags } = tagsOfWords(words, false);
  expect([...tags.keys()].filter((name) => name.startsWith('IPTC'))).toEqual([]);
  expect(tags.has('XMP-dc:Description')).toBe(true);
  expect([...tagsOfWords(noPictureWords, true).tags]).toEqual([]);
});

/** IIM 4.2: 2:05 holds 64 octets, 2:80 holds 32. */
test.each([
  ['x'.repeat(64), 'x'.repeat(64), []],
  ['x'.repeat(65), 'x'.repeat(64), ['ObjectName']],
  // 21 characters of three bytes; the 22nd would be cut in two.
  ['陶'.repeat(22), '陶'.repeat(21), ['ObjectName']],
])('a title of %j is %j in IIM and whole in XMP', (title, inIim, names) => {
  const { tags, cut } = tagsOfWords({ ...noPictureWords, title }, true);
  expect(tags.get('IPTC:ObjectName')).toBe(inIim);
  expect(tags.get('XMP-dc:Title')).toBe(title);
  expect(cut).toEqual(names);
});

test('keywords that are alike as far as IIM holds them stand there once', () => {
  const long = 'k'.repeat(64);
  const { tags, cut } = tagsOfWords({ ...noPictureWords, keywords: [`${long}1`, `${long}2`, 'cup'] }, true);
  expect(tags.get('IPTC:Keywords')).toEqual([long, 'cup']);
  expect(cut).toEqual(['Keywords']);
});

test('the fields that know one place have what is shown, else where it was taken', () => {
  const taken = { ...nowhere, city: 'Here' };
  const of = (placesShown: readonly (typeof taken)[]): unknown =>
    tagsOfWords({ ...noPictureWords, placeCreated: taken, placesShown }, true).tags.get('IPTC:City');
  expect(of([])).toBe('Here');
  expect(of([{ ...nowhere, city: 'There' }])).toBe('There');
});

describe('what a file says is held against what was wanted', () => {
  const { tags } = tagsOfWords({ ...words, title: '007', keywords: ['12'] }, true);
  const report: Record<string, unknown> = {
    ...Object.fromEntries(tags),
    'IPTC:CodedCharacterSet': '\u001b%G',
    // ExifTool's JSON: what looks like a figure is one, and a list of one is that one.
    'XMP-dc:Subject': 12,
    'IPTC:Keywords': 12,
  };
  test('the same is no difference', () => {
    expect(differencesIn(report, tags, nothing)).toEqual([]);
  });
  test.each([
    ['XMP-dc:Description', 'Blue mug'],
    ['XMP-dc:Creator', ['Bo', 'Ada']],
    ['IPTC:By-line', 'Ada'],
    ['IPTC:CodedCharacterSet', '\u001b-A'],
    ['IFD0:Copyright', undefined],
  ])('%s that is %j is named', (name, value) => {
    expect(differencesIn({ ...report, [name]: value }, tags, nothing)).toEqual([name]);
  });
  test.each([
    ['ExifIFD:SerialNumber', 'S-1'],
    ['ExifIFD:OwnerName', 'Ada'],
    ['GPS:GPSLatitude', 48.2],
    ['XMP-iptcExt:LocationShown', [{ City: 'X', GPSLatitude: 48.2 }]],
    ['MakerNotes:Whatever', 1],
  ])('%s that nobody asked for is named', (name, value) => {
    expect(differencesIn({ ...report, [name]: value }, tags, nothing)).toEqual([name]);
  });
});
