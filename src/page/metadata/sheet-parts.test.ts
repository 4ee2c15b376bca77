import { expect, test } from 'vitest';
import { lastTitleOf, listIn, refusalOf, sheetOfJob, textsAt, textWith } from './sheet-parts.ts';

const job = { code: 'QM-26', title: 'Autumn', client: 'Quillmere', metadata: '' };
const withText = (metadata: string): typeof job => ({ ...job, metadata });

test('a first word makes a sheet under the client’s name, and the last one taken out leaves none', () => {
  const text = textWith(job, ['all', 'contact', 'email'], 'ada@example.org');
  expect(JSON.parse(text)).toEqual({
    version: 1,
    title: 'Quillmere',
    all: { contact: { email: 'ada@example.org' } },
  });
  expect(textWith(withText(text), ['all', 'contact', 'email'], '')).toBe('');
});

test('another value leaves the rest as it was, in its order', () => {
  const first = textWith(job, ['all', 'caption'], 'A mug');
  const second = textWith(withText(first), ['all', 'keywords'], ['mug', 'blue']);
  const third = textWith(withText(second), ['all', 'caption'], 'A jug');
  const sheet = sheetOfJob(withText(third));
  if (typeof sheet === 'string') throw new Error(sheet);
  expect(Object.entries(sheet.all)).toEqual([
    ['caption', 'A jug'],
    ['keywords', ['mug', 'blue']],
  ]);
  expect(textsAt(sheet, ['all', 'keywords'])).toEqual(['mug', 'blue']);
  expect(textsAt(sheet, ['shots', 'constructor', 'caption'])).toEqual([]);
});

test('a sheet that cannot be read is said, and never written over', () => {
  const broken = withText('{"version":9}');
  expect(typeof sheetOfJob(broken)).toBe('string');
  expect(() => textWith(broken, ['all', 'caption'], 'A mug')).toThrow();
});

test('a field that nobody knows is refused, and a sheet that says nothing is not', () => {
  expect(refusalOf(textWith(job, ['all', 'headline'], '{nobody}'))).toContain('{client');
  expect(refusalOf(textWith(job, ['all', 'headline'], '{shot}'))).toBe('');
  expect(refusalOf('')).toBe('');
});

test('commas part keywords, and stand in a name', () => {
  expect(listIn('mug, blue,, mug', ['all', 'keywords'])).toEqual(['mug', 'blue']);
  expect(listIn('Example, Ada; Bo', ['all', 'creators'])).toEqual(['Example, Ada', 'Bo']);
});

test('the words used last for a client are those of their newest other job', () => {
  const said = (code: string, client: string, title: string): typeof job => ({
    ...job,
    code,
    client,
    metadata: JSON.stringify({ version: 1, title, all: { caption: 'x' } }),
  });
  const jobs = [
    said('QM-26', 'Quillmere', 'Own'),
    said('A', 'Other', 'Theirs'),
    said('B', ' quillmere', 'Theirs too'),
  ];
  expect(lastTitleOf(job, jobs)).toBe('Theirs too');
  expect(lastTitleOf({ ...job, client: '' }, jobs)).toBeNull();
});
