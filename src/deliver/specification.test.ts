import { expect, test } from 'vitest';
import { specificationNamed, specifications } from './library.ts';
import { readSpecification, readSpecificationText } from './read-specification.ts';

const small = { version: 1, title: 'Small', size: { kind: 'full' }, format: { kind: 'png', depth: 8 } };

function codesOf(document: unknown): string[] {
  const read = readSpecification(document);
  return read.specification === null ? read.findings.map(({ code }) => code) : [];
}

test('every specification of the library is one, and says every value', () => {
  for (const [name, specification] of Object.entries(specifications)) {
    expect(readSpecification(specification), name).toEqual({ specification });
  }
});

test('the library is found by short name and by title', () => {
  expect(specificationNamed(' Print ')?.name).toBe('print');
  expect(specificationNamed('web shop, SQUARE')?.name).toBe('web-shop');
  expect(specificationNamed('constructor')).toBeNull();
});

test('what is left out is careful: nothing enlarged, no private fields, the job’s own names and folder', () => {
  const { specification } = readSpecification(small);
  expect(specification).toMatchObject({
    enlarge: false,
    marks: ['hero'],
    naming: '',
    space: 'srgb',
    metadata: { privateFields: [] },
    copySpace: null,
    destination: { kind: 'job' },
    sharpening: { strength: 0 },
  });
});

test('what is wrong is named by its member', () => {
  expect(codesOf({ ...small, sise: 1 })).toEqual(['deliver.unknown-member']);
  expect(codesOf({ ...small, size: { kind: 'long-edge', px: 15 } })).toEqual(['deliver.too-small']);
  expect(codesOf({ ...small, size: { kind: 'long-edge', px: 16 } })).toEqual([]);
  expect(codesOf({ ...small, size: { kind: 'long-edge', px: 32_767 } })).toEqual([]);
  expect(codesOf({ ...small, size: { kind: 'long-edge', px: 32_768 } })).toEqual(['deliver.too-large']);
  expect(codesOf({ ...small, format: { kind: 'jpeg', depth: 16, quality: 90 } })).toEqual([
    'deliver.unknown-member',
  ]);
  expect(codesOf({ ...small, format: { kind: 'jpeg', quality: 40, qualityMin: 41 } })).toEqual([
    'deliver.bad-member',
  ]);
  expect(codesOf({ ...small, marks: ['hero', 'hero'] })).toEqual(['deliver.bad-member']);
  for (const naming of ['{client}', '{job', 'a/{job}', 'a\\b']) {
    expect(codesOf({ ...small, naming }), naming).toEqual(['deliver.bad-member']);
  }
  const kept = (side: string, sharePercent: number): object => ({
    ...small,
    copySpace: { side, sharePercent },
  });
  expect([codesOf(kept('left', 5)), codesOf(kept('top', 80))]).toEqual([[], []]);
  expect(codesOf(kept('left', 4.9))).toEqual(['deliver.too-small']);
  expect(codesOf(kept('left', 81))).toEqual(['deliver.too-large']);
  expect(codesOf(kept('middle', 30))).toEqual(['deliver.not-one-of']);
  expect(codesOf(null)).toEqual(['deliver.wrong-kind']);
});

test('a text that is none, or is too long, says so', () => {
  expect(readSpecificationText('{')).toMatchObject({ findings: [{ code: 'deliver.no-json' }] });
  expect(readSpecificationText(' '.repeat(65_537))).toMatchObject({
    findings: [{ code: 'deliver.too-long' }],
  });
  expect(readSpecificationText(JSON.stringify(small)).specification?.title).toBe('Small');
});
