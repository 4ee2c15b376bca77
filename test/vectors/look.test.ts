import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Vector3 } from '../../src/colour/index.ts';
import {
  applyCdl,
  type ColorCorrection,
  clfFunction,
  readCdl,
  readClf,
  readDocument,
  writeCdl,
  writeClf,
} from '../../src/look/index.ts';
import { knownCodes } from '../../src/words/index.ts';
import { readVector } from '../vector.ts';

/**
 * Documents written by hand after Academy S-2014-006 and the ASC CDL, release 1.2. What they do to colours was computed by
 * OpenColorIO 2.1.2, a library of its own, in 32-bit floats.
 */
interface Judged {
  readonly colours: readonly Vector3[];
  readonly results: Readonly<Record<string, readonly Vector3[]>>;
}

const { colours, results } = readVector<Judged>('look/opencolorio.json');
const folder = join(import.meta.dirname, 'look');
const textOf = (name: string): string => readFileSync(join(folder, name), 'utf8');
const documents = readdirSync(folder).filter((name) => name.endsWith('.clf'));

/** Single precision through a logarithm or a power: six digits, or a few millionths near zero. */
function expectNear(actual: Vector3, expected: Vector3 | undefined, of: string): void {
  actual.forEach((value, channel) => {
    const wanted = expected?.[channel] ?? Number.NaN;
    expect(Math.abs(value - wanted), of).toBeLessThan(2e-6 + 3e-5 * Math.abs(wanted));
  });
}

test.each(documents)(
  '%s does to colours what another library makes of it, and so does what is written of it',
  (name) => {
    const read = readClf(textOf(name));
    if (read.document === null) throw new Error(JSON.stringify(read.findings));
    const again = readClf(writeClf(read.document));
    if (again.document === null) throw new Error(JSON.stringify(again.findings));
    const [f, g] = [clfFunction(read.document), clfFunction(again.document)];
    colours.forEach((colour, index) => {
      expectNear(f(colour), results[name]?.[index], `${name} ${colour}`);
      expectNear(g(colour), results[name]?.[index], `${name} written ${colour}`);
    });
  },
);

test('every document is judged by the other library', () => {
  expect(documents.length).toBeGreaterThan(25);
  expect(documents.filter((name) => results[name] === undefined)).toEqual([]);
});

function corrections(name: string): readonly ColorCorrection[] {
  const read = readCdl(textOf(name));
  if (read.document === null) throw new Error(JSON.stringify(read.findings));
  return read.document;
}

test.each(['single.cc', 'collection.ccc', 'decisions.cdl'])(
  '%s does what another library makes of it',
  (name) => {
    for (const { id, cdl } of corrections(name)) {
      const expected = results[name] ?? results[`${name}#${id}`];
      colours.forEach((colour, index) => {
        expectNear(applyCdl(colour, cdl), expected?.[index], `${name} ${id} ${colour}`);
      });
    }
  },
);

test('words and ids of corrections are read, wherever they stand', () => {
  expect(corrections('decisions.cdl').map(({ id, description }) => [id, description])).toEqual([
    ['first', 'Warm evening'],
    ['second', ''],
  ]);
  expect(corrections('collection.ccc')[0]?.description).toBe('Own words');
});

test.each(['cc', 'ccc', 'cdl'] as const)('a %s that is written is read back exactly', (kind) => {
  const all = corrections('collection.ccc');
  const [first, ...more] = all;
  if (first === undefined) throw new Error('the collection has a correction');
  const awkward = { ...first, id: 'a<&"\u{1f600}', description: 'x > y & "z"' };
  const read = readCdl(writeCdl(kind, [awkward, ...more]));
  expect(read.document).toEqual(kind === 'cc' ? [awkward] : [awkward, ...more]);
});

test('a document with anything changed, taken out or put in is read or refused by a finding, and gives numbers', () => {
  const texts = [...documents, 'decisions.cdl', 'collection.ccc', 'single.cc'].map(textOf);
  const pieces = fc.constantFrom(
    '<',
    '>',
    '"',
    '&',
    '/',
    '-',
    '1e9',
    '1e-9',
    ' ',
    'x',
    '\u0000',
    '\ud800',
    '<a>',
    ']]>',
    '0',
  );
  fc.assert(
    fc.property(
      fc.constantFrom(...texts),
      fc.array(fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.nat(6), pieces), {
        minLength: 1,
        maxLength: 4,
      }),
      (text, changes) => {
        let changed = text;
        for (const [share, length, piece] of changes) {
          const at = Math.floor(share * changed.length);
          changed = changed.slice(0, at) + piece + changed.slice(at + length);
        }
        const read = readDocument(changed);
        if (read.kind === null) {
          for (const { code } of read.findings) expect(knownCodes()).toContain(code);
        } else if (read.kind === 'clf') {
          for (const colour of colours) {
            for (const value of clfFunction(read.clf)(colour)) expect(value).not.toBeNaN();
          }
        }
      },
    ),
    { numRuns: 1500 },
  );
});
