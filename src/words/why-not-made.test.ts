import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { sentence } from './sentences.ts';
import { codesWithCause } from './why-not-made.ts';

const src = join(import.meta.dirname, '..');

/** Codes that are declared there, one in quotes each. */
function codesIn(file: string, pattern: RegExp): readonly string[] {
  return [...readFileSync(join(src, file), 'utf8').matchAll(pattern)].map(([, code = '']) => code);
}

test('whatever a file of a delivery can fail with has a cause and a cure in words, and no code', () => {
  const raised = [
    ...codesIn('workers/errors.ts', /^ {2}'([a-z-]+)':/gm),
    ...codesIn('develop/errors.ts', /^ {2}'([a-z-]+)':/gm),
    ...codesIn('metadata/errors.ts', /'(metadata-[a-z-]+)'/g),
  ];
  expect(raised.length).toBeGreaterThan(20);
  for (const why of new Set(raised)) {
    expect(codesWithCause(), `${why} has words`).toContain(why);
    const said = sentence({ code: 'deliver.failed', args: { name: 'A.DNG', why } });
    expect(said).not.toContain(why);
    // Who, why, what to do, and that the rest goes on.
    expect(said.split(/(?<=\.) /).length, said).toBeGreaterThanOrEqual(3);
    expect(said).toMatch(/(Deliver|Choose|Send|Have|Copy|Look|Allow|Check) /);
  }
});

test('a code without words stands in a sentence with a cure', () => {
  const said = sentence({ code: 'deliver.failed', args: { name: 'A.DNG', why: 'EMFILE' } });
  expect(said).toBe(
    'No file was made of A.DNG: for a reason that has no words here, noted as EMFILE. Deliver this frame once more; if that fails too, choose another frame. The others are not held up by it.',
  );
});
