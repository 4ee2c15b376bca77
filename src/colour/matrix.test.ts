import fc from 'fast-check';
import { expect, test } from 'vitest';
import { identityMatrix, invertMatrix, type Matrix3, multiplyMatrices } from './matrix.ts';

const entry = fc.integer({ min: -20, max: 20 }).map((tenths) => tenths / 10);
const matrix = fc.tuple(entry, entry, entry, entry, entry, entry, entry, entry, entry);

test('a matrix times its inverse is the identity', () => {
  fc.assert(
    fc.property(matrix, (m) => {
      const inverse = invertMatrix(m);

      fc.pre(inverse !== null);
      multiplyMatrices(m, inverse).forEach((value, index) => {
        expect(value).toBeCloseTo(identityMatrix[index] ?? Number.NaN, 8);
      });
    }),
  );
});

test.each([
  ['zeros', [0, 0, 0, 0, 0, 0, 0, 0, 0]],
  ['two equal rows', [1, 2, 3, 1, 2, 3, 0, 0, 1]],
  ['not a number', [Number.NaN, 0, 0, 0, 1, 0, 0, 0, 1]],
] as const)('a matrix of %s has no inverse', (_, m) => {
  expect(invertMatrix(m satisfies Matrix3)).toBeNull();
});
