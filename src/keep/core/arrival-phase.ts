import type { EpochMs } from '../../base/index.ts';
import type { BrokenOff, BrokenOffEnd, Kept, KeptFile, Settling } from './arrival-records.ts';
import type { JournalRecord } from './records.ts';

/** Where one file stands in its life. The drawing is in `JOURNAL.md`. */
export type ArrivalPhase =
  | { readonly kind: 'arriving' }
  | { readonly kind: 'settling'; readonly file: KeptFile }
  | BrokenOffPhase
  | { readonly kind: 'kept'; readonly file: KeptFile }
  | { readonly kind: 'again'; readonly sameAs: string };

export interface BrokenOffPhase {
  readonly kind: 'broken-off';
  readonly sizeBytes: number;
  readonly expectedBytes: number | null;
  readonly sha256: string | null;
  readonly end: BrokenOffEnd;
  /** Null where the station died meanwhile. */
  readonly lastByteMs: EpochMs | null;
  /** When it was journalled; after a crash that is the next start. */
  readonly atMs: EpochMs;
  /** `made-good` and `let-go` are waited for no longer. */
  readonly settled: 'no' | 'made-good' | 'let-go';
  /** The arrival that made it good. */
  readonly by: string | null;
}

/** The records that move an arrival from one phase to another. */
export type PhaseRecord = Extract<
  JournalRecord,
  { type: 'resumed' | 'settling' | 'broken-off' | 'kept' | 'again' | 'made-good' | 'let-go' }
>;

/** The phase after a record, or null where that record cannot follow: a record of another story, or a lost one. */
export function nextPhase(phase: ArrivalPhase, record: PhaseRecord): ArrivalPhase | null {
  switch (record.type) {
    case 'resumed':
      return phase.kind === 'broken-off' ? { kind: 'arriving' } : null;
    case 'settling':
      return phase.kind === 'arriving' || phase.kind === 'settling'
        ? { kind: 'settling', file: keptFile(record) }
        : null;
    case 'kept':
      // Said twice where the first was unreadable for a while: the same start that missed it kept the file once more.
      if (phase.kind === 'kept') return isSameFile(phase.file, record) ? phase : null;
      return phase.kind === 'arriving' || phase.kind === 'settling'
        ? { kind: 'kept', file: keptFile(record) }
        : null;
    case 'broken-off':
      return phase.kind === 'arriving' || phase.kind === 'settling' ? brokenOff(record) : null;
    case 'again':
      return phase.kind === 'arriving' ? { kind: 'again', sameAs: record.sameAs } : null;
    case 'made-good':
    case 'let-go': {
      if (phase.kind !== 'broken-off' || phase.settled !== 'no') return null;
      return { ...phase, settled: record.type, by: record.type === 'made-good' ? record.by : null };
    }
  }
}

function brokenOff(record: BrokenOff & { readonly atMs: EpochMs }): BrokenOffPhase {
  const { sizeBytes, expectedBytes, sha256, end, lastByteMs, atMs } = record;
  return {
    kind: 'broken-off',
    sizeBytes,
    expectedBytes,
    sha256,
    end,
    lastByteMs,
    atMs,
    settled: 'no',
    by: null,
  };
}

function isSameFile(one: KeptFile, other: Kept): boolean {
  return one.original === other.original && one.sha256 === other.sha256;
}

/** The file without the record's stamp. */
export function keptFile(record: Kept | Settling): KeptFile {
  const { arrival, frame, job, camera, path, name, original, sizeBytes, sha256, wholeness } = record;
  const { expectedBytes, firstByteMs, lastByteMs } = record;
  return {
    arrival,
    frame,
    job,
    camera,
    path,
    name,
    original,
    sizeBytes,
    sha256,
    wholeness,
    expectedBytes,
    firstByteMs,
    lastByteMs,
  };
}
