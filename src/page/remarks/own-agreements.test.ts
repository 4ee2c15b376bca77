import { expect, test } from 'vitest';
import { isNameTaken } from './own-agreements.ts';

test('a name is taken where another device gave its word by it, spaces around it or not', () => {
  const given = [
    { id: 'word-0001', by: { name: 'Ada' } },
    { id: 'word-0002', by: { name: 'Bea' } },
  ];
  const own = new Set(['word-0002']);
  expect(isNameTaken(' Ada ', given, own)).toBe(true);
  expect(isNameTaken('Bea', given, own)).toBe(false);
  expect(isNameTaken('Cid', given, own)).toBe(false);
});
