import { expect, test } from 'vitest';
import { sidecarWordsOf } from './sidecar-words-of.ts';
import { writeXmp } from './write-xmp.ts';

const facts = {
  rating: 5,
  title: 'Mug',
  description: 'Blue & white, <2 handles> "new"\r\nsecond line',
  event: 'Autumn catalogue',
  location: '',
  keywords: ['QM-26', '', 'Mug', 'Mug'],
  identifier: 'f-1',
};

test('markup is escaped, and what may not stand in XML at all is left out (XML 1.0 2.2)', () => {
  const text = writeXmp({ ...facts, title: 'a\u0000b\ufffe\ud800c & d' });
  expect(text).toContain('Blue &amp; white, &lt;2 handles&gt; &quot;new&quot;&#xD;\nsecond line');
  expect(text).toContain('>abc &amp; d<');
});

test('what nobody said is left out, and a keyword stands once', () => {
  const text = writeXmp(facts);
  expect(text).not.toContain('Location>');
  expect(text.match(/<rdf:li>Mug<\/rdf:li>/g)).toHaveLength(1);
});

// ISO 16684-1:2019, 8.4: xmp:Rating is -1 (rejected), 0 (unrated) or up to 5.
test.each([
  [-1, -1],
  [0, 0],
  [5, 5],
  [2.5, 2.5],
  [-2, undefined],
  [6, undefined],
  ['5', undefined],
])('a rating of %o that comes in is %o', (Rating, rating) => {
  expect(sidecarWordsOf({ Rating }).rating).toBe(rating);
});

test('texts are cleaned, several creators are one line, and other shapes are nothing', () => {
  expect(
    sidecarWordsOf({ Title: ' Mug\u202e ', Creator: ['Ada', 'Ben'], Rights: 2026, Description: { en: 'x' } }),
  ).toEqual({ title: 'Mug', creator: 'Ada, Ben', rights: '2026' });
});
