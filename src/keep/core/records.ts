import type { EpochMs } from '../../base/index.ts';
import type { ArrivalRecord } from './arrival-records.ts';
import type { CardChecked } from './card-records.ts';
import type { Chosen } from './choice-records.ts';
import type { CopyRecord } from './copy-records.ts';
import type { FolderRecord } from './folder-records.ts';

/** One durable fact, as it stands in the journal: what happened, with its place in the order of all that happened. */
export type JournalRecord = Stamp & RecordBody;

export interface Stamp {
  readonly v: number;
  /** 1, 2, 3 … over the whole life of the home. */
  readonly seq: number;
  /** `seq` of the first record that was written and synced together with this one. */
  readonly group: number;
  readonly atMs: EpochMs;
}

export type RecordBody = Opened | ArrivalRecord | FolderRecord | CopyRecord | CardChecked | Chosen;

/** A station began to use the home. */
export interface Opened {
  readonly type: 'opened';
  /** Changes with every start of the computer; null where the system does not tell. */
  readonly bootId: string | null;
}
