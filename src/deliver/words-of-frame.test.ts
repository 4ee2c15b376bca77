import { expect, test } from 'vitest';
import {
  type MetadataField,
  metadataFields,
  readMetadataSheet,
  type WordsFrame,
  wordsOfFrame,
} from './index.ts';

const frame: WordsFrame = {
  id: 'f-1',
  shot: 'Mug',
  createdAt: '2026-11-05T10:12:13+01:00',
  values: {
    client: 'Quillmere Ceramics',
    job: 'QM-26',
    title: '',
    place: null,
    shot: 'Mug',
    description: 'blue, with a lid',
    name: 'QMST0001',
    date: '2026-11-05',
    year: '2026',
  },
};

function filled(document: object, fields: readonly MetadataField[] = metadataFields) {
  const read = readMetadataSheet({ version: 1, title: 'Quillmere', ...document });
  if (read.sheet === null) throw new Error(JSON.stringify(read.findings));
  return wordsOfFrame(read.sheet, frame, fields);
}

test('the frame goes before its shot, and that before all; keywords are added up', () => {
  const { words, findings } = filled({
    all: { caption: 'all', headline: 'all', altText: 'all', keywords: ['pottery', 'cup'] },
    shots: { Mug: { caption: 'shot', headline: 'shot', keywords: ['mug', 'cup'] }, Jug: { caption: 'jug' } },
    frames: { 'f-1': { caption: 'frame' }, 'f-2': { altText: 'other' } },
  });
  expect(words).toMatchObject({ caption: 'frame', headline: 'shot', altText: 'all' });
  expect(words.keywords).toEqual(['pottery', 'cup', 'mug']);
  expect(findings).toEqual([]);
});

test('fields in braces are filled in; what nobody knows goes with what parts it, and is said', () => {
  const { words, findings } = filled({
    all: {
      copyright: '© {year} {client}',
      caption: '{shot}: {description} – {place}',
      title: '{title}, {shot}',
    },
  });
  expect(words).toMatchObject({
    copyright: '© 2026 Quillmere Ceramics',
    caption: 'Mug: blue, with a lid',
    title: 'Mug',
  });
  // No right needs them: none is said to be left out.
  expect(findings).toEqual([
    { code: 'deliver.words-unknown', args: { names: '{place}', rights: '' } },
    { code: 'deliver.words-unknown', args: { names: '{title}', rights: '' } },
  ]);
});

test('a right with a hole in it is left out whole, and said', () => {
  const rights = { usageTerms: 'for {place} only', copyright: '© {place}', credit: 'Q / {place}' };
  const { words, findings } = filled({ all: rights }, ['usage-terms', 'copyright', 'credit']);
  expect(words).toMatchObject({ usageTerms: '', copyright: '', credit: '' });
  expect(findings).toEqual([
    { code: 'deliver.words-unknown', args: { names: '{place}', rights: 'credit, copyright, usage-terms' } },
  ]);
});

test('only the fields that the specification names are written', () => {
  const { words } = filled({ all: { caption: 'c', copyright: 'r', persons: ['Ada'] } }, ['copyright']);
  expect(words).toMatchObject({ caption: '', copyright: 'r', persons: [], createdAt: '' });
});

test.each([
  [{ all: { captoin: 'x' } }, 'deliver.unknown-member', 'all'],
  [{ all: { caption: 'a {colour} mug' } }, 'deliver.bad-member', 'all.caption'],
  [{ all: { title: 'two\nlines' } }, 'deliver.bad-member', 'all.title'],
  [{ all: { caption: 'a bell \u0007' } }, 'deliver.bad-member', 'all.caption'],
  [{ all: { caption: 'half \ud800' } }, 'deliver.bad-member', 'all.caption'],
  [{ all: { digitalSourceType: 'softwareImage' } }, 'deliver.not-one-of', 'all.digitalSourceType'],
  [{ all: { placeCreated: { countryCode: 'gb' } } }, 'deliver.bad-member', 'all.placeCreated.countryCode'],
  [{ all: { rightsPage: 'javascript:alert(1)' } }, 'deliver.wrong-form', 'all.rightsPage'],
  [{ all: { title: 'x'.repeat(251) } }, 'deliver.too-large', 'all.title'],
])('%j is refused, and the member is named', (document, code, member) => {
  const read = readMetadataSheet({ version: 1, title: 'x', ...document });
  expect(read).toMatchObject({ sheet: null, findings: [{ code, args: { member } }] });
});

test('a caption may have lines, and a text is as long as its bound', () => {
  const { words } = filled({ all: { caption: 'one\ntwo', title: 'x'.repeat(250) } });
  expect(words).toMatchObject({ caption: 'one\ntwo', title: 'x'.repeat(250) });
});
