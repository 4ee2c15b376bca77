import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { knownCodes } from '../../src/words/index.ts';

test('every finding of the room send has a sentence, and every such sentence is said', () => {
  const said = ['src/send', 'src/station/destinations', 'src/station/deliveries']
    .map((folder) => join(import.meta.dirname, '../..', folder))
    .flatMap((folder) =>
      readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((name) => join(folder, name)),
    )
    .filter((name) => name.endsWith('.ts') && !name.endsWith('.test.ts'))
    .flatMap((name) => [...readFileSync(name, 'utf8').matchAll(/'(send\.[a-z-]+)'/g)])
    .map(([, code = '']) => code);
  expect([...new Set(said)].sort()).toEqual(
    knownCodes()
      .filter((code) => code.startsWith('send.'))
      .sort(),
  );
});
