import { expect, test } from 'vitest';
import { rgbSpaces } from '../colour/index.ts';
import { encodeTable } from './encode-table.ts';

// Hand derivation: the definition, one power a step.
test('each step of the table is the rounded byte of its light', () => {
  for (const space of [rgbSpaces.srgb, rgbSpaces.rec2020, rgbSpaces['adobe-rgb']]) {
    const table = encodeTable(space);
    const wrong = Array.from({ length: 65_536 }, (_, step) => step).filter(
      (step) => table[step] !== Math.round(255 * space.transfer.encode(step / 65_535)),
    );
    expect(wrong).toEqual([]);
  }
});
