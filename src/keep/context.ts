import type { EpochMs } from '../base/index.ts';
import type { Inspect } from './arrival-shapes.ts';
import type { KeepEvent } from './core/keep-event.ts';
import type { KeepState } from './core/keep-state.ts';
import type { Disk } from './disk.ts';
import type { Hashing } from './hash-session.ts';
import type { HomeFolders } from './home-folders.ts';
import type { Journal } from './journal.ts';
import type { KeepLimits } from './limits.ts';
import type { ParkedHashes } from './parked-hashes.ts';
import type { SyncLanes } from './sync-lanes.ts';

/** What the parts of one open keep share. */
export interface KeepContext {
  readonly disk: Disk;
  readonly folders: HomeFolders;
  readonly journal: Journal;
  readonly state: KeepState;
  readonly hashing: Hashing;
  readonly parkedHashes: ParkedHashes;
  readonly syncLanes: SyncLanes;
  readonly inspect: Inspect;
  readonly now: () => EpochMs;
  readonly newId: () => string;
  readonly jobOf: (camera: string) => string;
  readonly diskFloorBytes: number;
  readonly limits: KeepLimits;
  readonly tell: (event: KeepEvent) => void;
  /** Attempts that were read and found to hold bytes of their own, with whom they were compared. */
  readonly unproved: Set<string>;
  /** Arrivals whose connection is alive, by id. */
  readonly live: Map<string, LiveBytes>;
}

/** What a folder asks of a file that is arriving now. */
export interface LiveBytes {
  readonly camera: string;
  readonly heldBytes: number;
  readonly lastByteMs: EpochMs | null;
}
