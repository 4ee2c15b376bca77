import { expect, test } from 'vitest';
import { noContact, noPictureWords, nowhere } from '../metadata/index.ts';
import { cutWords, findingsOfWords, saidWords, specificationNamed, withPrivateFields } from './index.ts';

const specification = specificationNamed('print')?.specification;
if (specification === undefined) throw new Error('print comes with the station');
const jpeg = { kind: 'jpeg', quality: 90, bytesMax: null, qualityMin: 60 } as const;
const words = { ...noPictureWords, credit: 'x'.repeat(33) };

test('what is said is told, lists and places in one line, and nothing else', () => {
  const said = saidWords({
    ...noPictureWords,
    creators: ['Ada', 'Bo'],
    contact: { ...noContact, email: 'ada@example.org' },
    placesShown: [{ ...nowhere, city: 'Quill', countryCode: 'GBR' }],
  });
  expect(Object.fromEntries(said.map(({ property, text }) => [property, text]))).toEqual({
    creators: 'Ada; Bo',
    contact: 'ada@example.org',
    placesShown: 'Quill, GBR',
  });
});

/** IIM 4.2: 2:110 (credit) holds 32 octets. */
test('what IIM cuts is told with what stands there, and only where the format has a place for it', () => {
  expect(cutWords(words, jpeg)).toEqual([{ dataset: 'Credit', text: 'x'.repeat(32) }]);
  expect(findingsOfWords(words, jpeg)).toEqual([{ code: 'deliver.iim-cut', args: { names: 'Credit' } }]);
  const webp = { kind: 'webp', quality: 80 } as const;
  expect(cutWords(words, webp)).toEqual([]);
  expect(findingsOfWords(words, webp)).toEqual([{ code: 'deliver.no-iim', args: { format: 'webp' } }]);
  expect(findingsOfWords(noPictureWords, webp)).toEqual([]);
});

test('a sheet has more go along, and takes nothing away', () => {
  const sheet = { version: 1, title: 'Q', all: {}, shots: {}, frames: {} } as const;
  expect(withPrivateFields(specification, sheet)).toBe(specification);
  const asked = withPrivateFields(specification, { ...sheet, privateFields: ['position'] });
  expect(asked.metadata.privateFields).toEqual([...specification.metadata.privateFields, 'position']);
});
