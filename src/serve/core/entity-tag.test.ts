import { expect, test } from 'vitest';
import { isSameTag, matchableTags, namesTag, strongTag, tagsMax } from './entity-tag.ts';

test('weak comparison follows the table of RFC 9110 section 8.8.3.2', () => {
  // Table 3, columns "ETag 1", "ETag 2", "Weak Comparison"; our own tags are strong.
  expect(namesTag('W/"1"', '"1"')).toBe(true);
  expect(namesTag('W/"1"', '"2"')).toBe(false);
  expect(namesTag('"1"', '"1"')).toBe(true);
});

test('If-None-Match reads lists and the star (RFC 9110 section 13.1.2, its examples)', () => {
  expect(namesTag('"xyzzy", "r2d2xxxx", "c3piozzzz"', '"r2d2xxxx"')).toBe(true);
  expect(namesTag('W/"xyzzy", W/"r2d2xxxx", W/"c3piozzzz"', '"c3piozzzz"')).toBe(true);
  expect(namesTag('*', '"anything"')).toBe(true);
  expect(namesTag(undefined, '"x"')).toBe(false);
  expect(namesTag('xyzzy', '"xyzzy"')).toBe(false);
});

test('a comma inside a tag does not end it (RFC 9110 section 8.8.3, etagc)', () => {
  expect(namesTag('"a,b", "c"', '"a,b"')).toBe(true);
  expect(namesTag('"a,b", "c"', '"b"')).toBe(false);
});

test('If-Match takes strong tags only, by strong comparison (RFC 9110 section 13.1.1)', () => {
  expect(matchableTags('"1", W/"2", "3"')).toEqual(['1', '3']);
  expect(matchableTags('*')).toBe('any');
  expect(matchableTags(undefined)).toBe('any');
  expect(matchableTags('nonsense')).toEqual([]);
});

test(`lists are read up to ${tagsMax} tags`, () => {
  const list = (count: number): string => Array.from({ length: count }, (_, i) => `"${i}"`).join(', ');
  expect(matchableTags(list(tagsMax))).toHaveLength(tagsMax);
  expect(matchableTags(list(tagsMax + 1))).toHaveLength(tagsMax);
});

test('If-Range must be the very tag, not a weak one and not a date (RFC 9110 section 13.1.5)', () => {
  expect(isSameTag('"x"', '"x"')).toBe(true);
  expect(isSameTag('W/"x"', '"x"')).toBe(false);
  expect(isSameTag('Sat, 29 Oct 1994 19:43:31 GMT', '"x"')).toBe(false);
});

test('a tag holds no quote or line end, whatever it is made of', () => {
  expect(strongTag('a"b\r\nc d-1.2:3_4')).toBe('"abcd-1.2:3_4"');
});
