import fc from 'fast-check';
import { expect, test } from 'vitest';
import { codesToResiduals, residualsToCodes } from './residuals.ts';

test('any codes come back from their residuals', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 7 }),
      fc.integer({ min: 1, max: 5 }),
      fc.infiniteStream(fc.integer({ min: 0, max: 65_535 })),
      (columns, rows, stream) => {
        const rowLength = columns * 3;
        const codes = Uint16Array.from({ length: rowLength * rows }, () => stream.next().value ?? 0);
        const residuals = new Uint8Array(codes.length * 2);
        codesToResiduals(codes, rowLength, residuals);
        const back = new Uint16Array(codes.length);
        residualsToCodes(residuals, rowLength, back);
        expect([...back]).toEqual([...codes]);
      },
    ),
  );
});

test('a smooth ramp leaves only small residuals', () => {
  const codes = Uint16Array.from(
    { length: 300 * 20 },
    (_, k) => 9000 + (k % 300) * 3 + Math.floor(k / 300) * 5,
  );
  const residuals = new Uint8Array(codes.length * 2);
  codesToResiduals(codes, 300, residuals);
  expect(residuals.subarray(codes.length + 400).every((byte) => byte === 0)).toBe(true);
});
