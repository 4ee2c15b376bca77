import type { EpochMs } from '../../base/index.ts';
import type { ArrivalPhase } from './arrival-phase.ts';
import type { Announced, Kept, Via } from './arrival-records.ts';

/** What the journal says of one arrival. */
export interface KnownArrival {
  readonly id: string;
  /** The one it belongs to now. */
  frame: string;
  /** The one it was announced in: another where it turned out to be another picture. */
  readonly startedFrame: string;
  readonly job: string;
  readonly camera: string;
  /** Name in `incoming/`. */
  readonly incoming: string;
  readonly announcedPath: string;
  readonly announcedMs: EpochMs;
  readonly over: string | null;
  /** Where the camera's folder shows it, or showed it before it was hidden or replaced. */
  path: string;
  via: Via;
  announcedBytes: number | null;
  /** Certainly on the disk, whatever became of the power. */
  syncedBytes: number;
  firstByteMs: EpochMs | null;
  phase: ArrivalPhase;
  /** Where its bytes are held once they were taken out of `incoming/`, or are about to be. */
  folded: { readonly into: string; readonly sizeBytes: number; readonly sha256: string } | null;
  /** Path of the original with the same bytes and name that could not answer for them when this one was kept, or null. */
  insteadOf: string | null;
  /** The arrival with the same bytes that took its place in its frame, since it could not answer for them any more; or null. */
  replacedBy: string | null;
  /** Ids of the second places that hold it. */
  copiedTo: readonly string[];
}

/** An arrival as its announcement makes it. */
export function announcedArrival(record: Announced, atMs: EpochMs): KnownArrival {
  return {
    id: record.arrival,
    frame: record.frame,
    startedFrame: record.frame,
    job: record.job,
    camera: record.camera,
    incoming: record.incoming,
    announcedPath: record.path,
    announcedMs: atMs,
    over: record.over,
    path: record.path,
    via: record.via,
    announcedBytes: record.announcedBytes,
    syncedBytes: 0,
    firstByteMs: null,
    phase: { kind: 'arriving' },
    folded: null,
    insteadOf: null,
    replacedBy: null,
    copiedTo: nowhere,
  };
}

/** The announcement that a damaged journal lost, as far as the `kept` record says it. */
export function announcementOf(record: Kept): Announced {
  return {
    type: 'announced',
    arrival: record.arrival,
    frame: record.frame,
    job: record.job,
    camera: record.camera,
    path: record.path,
    incoming: record.arrival,
    via: 'ftp',
    announcedBytes: null,
    prefixOf: null,
    prefixBytes: 0,
    over: null,
  };
}

/** Neither kept nor done with. */
export function isOpen(phase: ArrivalPhase): boolean {
  switch (phase.kind) {
    case 'arriving':
    case 'settling':
      return true;
    case 'broken-off':
      return phase.settled === 'no';
    case 'kept':
    case 'again':
      return false;
  }
}

/** Shared, since most arrivals of a home without a second place are there. */
const nowhere: readonly string[] = [];
