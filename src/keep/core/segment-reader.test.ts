import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { JournalRecord } from './records.ts';
import { SegmentReader } from './segment-reader.ts';

const record = (seq: number, group: number): JournalRecord => ({
  v: 1,
  seq,
  group,
  atMs: 0,
  type: 'folder-made',
  camera: 'cam1',
  path: '/d',
});

function read(lines: readonly (JournalRecord | 'damaged')[], nextSegmentSeq: number | null = null) {
  const reader = new SegmentReader(1, nextSegmentSeq);
  const given = lines.flatMap((line) =>
    reader.push(line === 'damaged' ? { kind: 'damaged' } : { kind: 'record', record: line }),
  );
  const end = reader.end(false);
  return { seqs: [...given, ...end.records].map(({ seq }) => seq), end };
}

test('a disk that gives old blocks back brings no record twice', () => {
  // 3 is held as nobody knows what became of 1 and 2; then all of them come, and a later group says 5 and 6 are lost.
  const { seqs, end } = read([record(3, 1), record(1, 1), record(2, 1), record(3, 1), record(7, 7)]);
  expect(seqs).toEqual([1, 2, 3, 7]);
  expect(end.damage).toEqual([{ seqFrom: 4, seqTo: 6 }]);
});

test('good lines that stand in the wrong order are taken in their order', () => {
  const { seqs, end } = read(['damaged', record(4, 1), record(3, 1), record(6, 6)]);
  expect(seqs).toEqual([3, 4, 6]);
  expect(end.damage).toEqual([
    { seqFrom: 1, seqTo: 2 },
    { seqFrom: 5, seqTo: 5 },
  ]);
});

test('whatever stands in a segment, its records rise, and none that is given counts as lost', () => {
  const line = fc.oneof(
    { weight: 1, arbitrary: fc.constant('damaged' as const) },
    {
      weight: 6,
      arbitrary: fc
        .tuple(fc.integer({ min: 1, max: 9 }), fc.nat(8))
        .map(([seq, back]) => record(seq, Math.max(1, seq - back))),
    },
  );
  fc.assert(
    fc.property(fc.array(line), fc.option(fc.integer({ min: 2, max: 12 })), (lines, nextSegmentSeq) => {
      const { seqs, end } = read(lines, nextSegmentSeq);
      for (const [at, seq] of seqs.entries()) {
        if (at > 0) expect(seq).toBeGreaterThan(seqs[at - 1] ?? 0);
        expect(end.damage.some(({ seqFrom, seqTo }) => seqFrom <= seq && seq <= seqTo)).toBe(false);
      }
    }),
  );
});
