import { expect, test } from 'vitest';
import { keptFindings } from './kept-findings.ts';

test('bad originals come before the journal, whose damages are counted together from the first on', () => {
  const original = { code: 'keep.originals-bad', args: { original: 'A.DNG', count: 1 } };
  const damaged = (seqFrom: number, seqTo: number) => ({
    code: 'keep.journal-damaged',
    args: { seqFrom, seqTo, count: seqTo - seqFrom + 1 },
  });
  const keep = { keptFile: () => null, troubles: [damaged(3, 4), damaged(9, 9)] };
  const found = keptFindings({ finding: () => original }, keep);
  expect(found).toEqual([
    original,
    { code: 'keep.journal-damaged', args: { seqFrom: 3, seqTo: 4, count: 3 } },
  ]);
  expect(keptFindings({ finding: () => null }, { ...keep, troubles: [] })).toEqual([]);
});
