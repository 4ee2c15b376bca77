import { expect, test } from 'vitest';
import type { Look as KeptLook } from '../../../contract/index.ts';
import { defaultLook } from '../../../look/index.ts';
import { chosenOf } from './use-compare.ts';

const version = (id: string): KeptLook => ({
  ...{ id, name: 'Evening', version: 1, hash: id, document: defaultLook },
  ...{ savedAt: '2026-01-01T00:00:00.000Z', savedBy: '', laidAside: false },
});

test('the first version waits for another, pressed again it is let go, and of three the first is', () => {
  const [a, b, c] = [version('a'), version('b'), version('c')];
  expect(chosenOf([], a)).toEqual([a]);
  expect(chosenOf([a], a)).toEqual([]);
  expect(chosenOf([a], b)).toEqual([a, b]);
  expect(chosenOf([a, b], c)).toEqual([b, c]);
});
