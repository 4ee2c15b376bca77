import type { EpochMs } from '../../base/index.ts';
import type { BrokenOffEnd } from './arrival-records.ts';
import { baseName } from './folder-tree.ts';
import type { KeepState } from './keep-state.ts';
import type { KnownArrival } from './known-arrival.ts';
import type { JournalRecord } from './records.ts';

/** What every event says of its file. */
export interface EventFile {
  readonly arrival: string;
  readonly frame: string;
  readonly job: string;
  readonly camera: string;
  /** As the camera calls it now. */
  readonly name: string;
  /** In the camera's folder. */
  readonly viewPath: string;
  /** Where the bytes lie now, absolute: in `incoming/`, or the original. */
  readonly diskPath: string;
  readonly sizeBytes: number;
  readonly announcedBytes: number | null;
  readonly firstByteMs: EpochMs | null;
  readonly lastByteMs: EpochMs | null;
  readonly atMs: EpochMs;
}

interface KeptEvent {
  readonly sha256: string;
  /** Where it is not `frame`, the file was told in this one until now, and belongs to it no more. */
  readonly startedFrame: string;
  /** The original below the home that holds these bytes by the journal and does not on the disk; null as a rule. */
  readonly insteadOf: string | null;
}

export type KeepEvent = EventFile &
  (
    | { readonly type: 'started'; readonly resumed: boolean; readonly over: string | null }
    | { readonly type: 'progress' }
    | (KeptEvent & { readonly type: 'kept'; readonly wholeness: 'whole' | 'unknown' })
    | (KeptEvent & { readonly type: 'damaged'; readonly expectedBytes: number | null })
    | {
        readonly type: 'broken-off';
        readonly end: BrokenOffEnd;
        readonly expectedBytes: number | null;
        readonly sha256: string | null;
      }
    /** These bytes are kept already. Where `frame` is not `sameAs.frame`, it was made for this arrival and is void. */
    | { readonly type: 'again'; readonly sameAs: { readonly arrival: string; readonly frame: string } }
    | { readonly type: 'made-good'; readonly by: string }
    | { readonly type: 'let-go' }
    /** A broken-off file whose bytes a longer attempt holds too: it is listed no more. */
    | { readonly type: 'folded' }
    | { readonly type: 'renamed'; readonly fromPath: string }
    | { readonly type: 'hidden' }
    | { readonly type: 'copied'; readonly place: string; readonly otherDevice: boolean }
    | { readonly type: 'copy-lost'; readonly place: string }
  );

/** Where things lie, absolute. */
export interface EventPlaces {
  original(path: string): string;
  incoming(name: string): string;
}

/** The event that a durable record amounts to, or null where it is none. `state` has applied the record. */
export function eventOf(record: JournalRecord, state: KeepState, places: EventPlaces): KeepEvent | null {
  if (!('arrival' in record) || record.arrival === null) return null;
  const arrival = state.arrivals.get(record.arrival);
  if (arrival === undefined) return null;
  const file = fileOf(arrival, places, record.atMs);
  switch (record.type) {
    case 'announced':
      return { ...file, type: 'started', resumed: false, over: record.over };
    case 'resumed':
      return { ...file, sizeBytes: record.offsetBytes, type: 'started', resumed: true, over: null };
    case 'kept': {
      const { sha256, wholeness, expectedBytes } = record;
      const { startedFrame, insteadOf } = arrival;
      return wholeness === 'damaged'
        ? { ...file, type: 'damaged', sha256, expectedBytes, startedFrame, insteadOf }
        : { ...file, type: 'kept', sha256, wholeness, startedFrame, insteadOf };
    }
    case 'broken-off': {
      const { end, expectedBytes, sha256 } = record;
      return { ...file, type: 'broken-off', end, expectedBytes, sha256 };
    }
    case 'again': {
      const original = state.arrivals.get(record.sameAs);
      if (original === undefined) return null;
      const { diskPath, sizeBytes } = fileOf(original, places, record.atMs);
      const sameAs = { arrival: original.id, frame: original.frame };
      return { ...file, diskPath, sizeBytes, type: 'again', sameAs };
    }
    case 'made-good':
      return { ...file, type: 'made-good', by: record.by };
    case 'let-go':
      return { ...file, type: 'let-go' };
    case 'folded':
      return arrival.phase.kind === 'broken-off' && arrival.phase.settled === 'no'
        ? { ...file, type: 'folded' }
        : null;
    case 'renamed':
      return { ...file, type: 'renamed', fromPath: record.from };
    case 'hidden':
      return { ...file, type: 'hidden' };
    case 'copied':
      return { ...file, type: 'copied', place: record.place, otherDevice: record.otherDevice };
    case 'copy-lost':
      return { ...file, type: 'copy-lost', place: record.place };
    case 'settling':
    case 'synced':
    case 'put-back':
      return null;
  }
}

/** An arrival as events tell it; while it arrives, the caller knows better how many bytes are here. */
export function fileOf(arrival: KnownArrival, places: EventPlaces, atMs: EpochMs): EventFile {
  const { phase } = arrival;
  const kept = phase.kind === 'kept' ? phase.file : null;
  return {
    arrival: arrival.id,
    frame: arrival.frame,
    job: arrival.job,
    camera: arrival.camera,
    name: baseName(arrival.path),
    viewPath: arrival.path,
    diskPath: kept === null ? places.incoming(arrival.incoming) : places.original(kept.original),
    sizeBytes: kept?.sizeBytes ?? (phase.kind === 'broken-off' ? phase.sizeBytes : 0),
    announcedBytes: arrival.announcedBytes,
    firstByteMs: arrival.firstByteMs,
    lastByteMs: kept?.lastByteMs ?? (phase.kind === 'broken-off' ? phase.lastByteMs : null),
    atMs,
  };
}
