import { expect, test } from 'vitest';
import { readMetadataSheet, readSpecification } from '../deliver/index.ts';
import { sentence } from './sentences.ts';

function saidOf(document: unknown): string[] {
  const read = readSpecification(document);
  return read.specification === null ? read.findings.map((each) => sentence(each)) : [];
}

function saidOfSheet(document: unknown): string[] {
  const read = readMetadataSheet(document);
  return read.sheet === null ? read.findings.map((each) => sentence(each)) : [];
}

test('a specification that is refused is told in plain words, never in those of the schema library', () => {
  const wrong = {
    ...{ version: 2, title: '', marks: ['best'], size: { kind: 'huge' }, format: { kind: 'jpg' } },
    ...{ enlarge: 'yes', sharpening: 3, naming: '{x}' },
  };
  const all = [...saidOf({}), ...saidOf(null), ...saidOf([]), ...saidOf(wrong)];
  expect(all.length).toBeGreaterThan(10);
  const sheet = {
    version: 2,
    title: 3,
    all: { caption: 4, rightsPage: 'x', keywords: 'a', digitalSourceType: 'q' },
  };
  for (const each of [...all, ...saidOfSheet(sheet), ...saidOfSheet(7)])
    expect(each).not.toMatch(/Invalid|expected|received|undefined|discriminator|Too small|>=/);
});

test('what may stand there is named', () => {
  const said = saidOf({
    version: 1,
    title: 'x',
    marks: ['hero'],
    size: { kind: 'huge' },
    format: { kind: 'jpeg', quality: 90 },
  });
  expect(said).toContain(
    'size.kind is missing, or none of what may stand there: full, long-edge, box, exact.',
  );
});
