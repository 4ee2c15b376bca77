import { expect, test } from 'vitest';
import { knownCodes } from '../words/index.ts';
import { causeCodes } from './shapes.ts';

test('every cause has its sentence, and every sentence of a cause has its cause', () => {
  const said = knownCodes().filter((code) => code.startsWith('line-check.'));
  expect(said.sort()).toEqual([...causeCodes].sort());
});
