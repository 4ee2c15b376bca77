import { expect, test } from 'vitest';
import { type ArrivalPhase, nextPhase, type PhaseRecord } from './arrival-phase.ts';
import type { KeptFile } from './arrival-records.ts';

const stamp = { v: 1, seq: 1, group: 1, atMs: 0, arrival: 'a' };
const file: KeptFile = {
  arrival: 'a',
  frame: 'f',
  job: 'j',
  camera: 'c',
  path: '/x',
  name: 'x',
  original: 'jobs/j/originals/c/x',
  sizeBytes: 1,
  sha256: '0'.repeat(64),
  wholeness: 'whole',
  expectedBytes: null,
  firstByteMs: null,
  lastByteMs: null,
};

const phases: Readonly<Record<string, ArrivalPhase>> = {
  arriving: { kind: 'arriving' },
  settling: { kind: 'settling', file },
  'broken-off': {
    kind: 'broken-off',
    sizeBytes: 1,
    expectedBytes: null,
    sha256: null,
    end: 'reset',
    lastByteMs: null,
    atMs: 1,
    settled: 'no',
    by: null,
  },
  'made-good': {
    kind: 'broken-off',
    sizeBytes: 1,
    expectedBytes: null,
    sha256: null,
    end: 'reset',
    lastByteMs: null,
    atMs: 1,
    settled: 'made-good',
    by: 'x',
  },
  kept: { kind: 'kept', file },
  again: { kind: 'again', sameAs: 'b' },
};

const records: Readonly<Record<string, PhaseRecord>> = {
  resumed: { ...stamp, type: 'resumed', via: 'ftp', offsetBytes: 1, announcedBytes: null },
  settling: { ...stamp, ...file, type: 'settling' },
  'broken-off': {
    ...stamp,
    type: 'broken-off',
    sizeBytes: 1,
    expectedBytes: null,
    sha256: null,
    end: 'reset',
    firstByteMs: null,
    lastByteMs: null,
  },
  kept: { ...stamp, ...file, type: 'kept' },
  again: { ...stamp, type: 'again', sameAs: 'b', sizeBytes: 1, sha256: '0'.repeat(64) },
  'made-good': { ...stamp, type: 'made-good', by: 'b' },
  'let-go': { ...stamp, type: 'let-go' },
};

/** The arrows of the drawing in JOURNAL.md: phase, record, phase after. Every other pair has no arrow. */
const arrows: readonly (readonly [string, string, ArrivalPhase['kind']])[] = [
  ['arriving', 'settling', 'settling'],
  ['arriving', 'kept', 'kept'],
  ['arriving', 'broken-off', 'broken-off'],
  ['arriving', 'again', 'again'],
  ['settling', 'settling', 'settling'],
  ['settling', 'kept', 'kept'],
  ['settling', 'broken-off', 'broken-off'],
  ['kept', 'kept', 'kept'],
  ['broken-off', 'resumed', 'arriving'],
  ['made-good', 'resumed', 'arriving'],
  ['broken-off', 'made-good', 'broken-off'],
  ['broken-off', 'let-go', 'broken-off'],
];

const pairs = Object.keys(phases).flatMap((phase) =>
  Object.keys(records).map((record) => [phase, record] as const),
);

test.each(pairs)('%s, then a record %s: as drawn in JOURNAL.md', (phase, record) => {
  const from = phases[phase];
  const by = records[record];
  if (from === undefined || by === undefined) throw new Error('a name is missing in the table');
  const arrow = arrows.find(([a, b]) => a === phase && b === record);
  expect(nextPhase(from, by)?.kind ?? null).toBe(arrow?.[2] ?? null);
});

test('a file that is kept is kept once more as the same file only', () => {
  const { kept } = phases;
  if (kept === undefined) throw new Error('a name is missing in the table');
  expect(nextPhase(kept, { ...stamp, ...file, type: 'kept' })).toBe(kept);
  expect(nextPhase(kept, { ...stamp, ...file, sha256: '1'.repeat(64), type: 'kept' })).toBeNull();
  expect(nextPhase(kept, { ...stamp, ...file, original: 'jobs/j/originals/c/y', type: 'kept' })).toBeNull();
});
