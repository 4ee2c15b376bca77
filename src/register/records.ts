import type { EpochMs } from '../base/index.ts';
import type { ExpectedFiles } from '../facts/index.ts';
import type { FrameChoice, JobChoice, LookChoice, RemarkChoice } from '../job/index.ts';

/**
 * What the register needs from whoever keeps the journal: its records, in order, as far as the register reads them.
 * `station` joins the two, and the compiler checks there that they agree; a new kind of record has to be named here,
 * if only to say that it changes no row.
 */
export type RegisterRecord = { readonly seq: number; readonly atMs: EpochMs } & RegisterRecordBody;

export type RegisterRecordBody =
  | {
      readonly type: 'announced';
      readonly arrival: string;
      readonly frame: string;
      readonly job: string;
      readonly camera: string;
      readonly path: string;
      readonly incoming: string;
      readonly announcedBytes: number | null;
    }
  | { readonly type: 'resumed'; readonly arrival: string; readonly announcedBytes: number | null }
  | {
      readonly type: 'broken-off';
      readonly arrival: string;
      readonly sizeBytes: number;
      readonly expectedBytes: number | null;
      readonly sha256: string | null;
      readonly firstByteMs: EpochMs | null;
      readonly lastByteMs: EpochMs | null;
    }
  | {
      readonly type: 'kept';
      readonly arrival: string;
      readonly frame: string;
      readonly job: string;
      readonly camera: string;
      readonly path: string;
      readonly name: string;
      readonly original: string;
      readonly sizeBytes: number;
      readonly sha256: string;
      readonly wholeness: 'whole' | 'unknown' | 'damaged';
      readonly expectedBytes: number | null;
      readonly firstByteMs: EpochMs | null;
      readonly lastByteMs: EpochMs | null;
    }
  | { readonly type: 'again'; readonly arrival: string; readonly sameAs: string }
  | { readonly type: 'made-good' | 'let-go'; readonly arrival: string }
  | { readonly type: 'card-checked' | 'put-back' }
  | {
      readonly type: 'renamed';
      readonly camera: string;
      readonly from: string;
      readonly to: string;
      readonly arrival: string | null;
    }
  | { readonly type: 'hidden'; readonly arrival: string }
  | {
      readonly type: 'copied';
      readonly arrival: string;
      readonly place: string;
      readonly readBack: 'direct' | 'cached';
      readonly otherDevice: boolean;
    }
  | { readonly type: 'folded'; readonly arrival: string }
  | { readonly type: 'copy-lost'; readonly arrival: string; readonly place: string }
  | { readonly type: 'place-made'; readonly place: string; readonly folder: string }
  | FrameChoice
  | RemarkChoice
  | JobChoice
  | LookChoice
  | {
      readonly type: 'job-opened';
      readonly code: string;
      readonly title: string;
      readonly client: string;
      readonly shots: readonly { readonly id: string; readonly name: string }[];
    }
  | { readonly type: 'camera-set'; readonly camera: string; readonly expects: ExpectedFiles | null }
  | {
      readonly type: 'camera-clock-set';
      readonly camera: string;
      readonly offsetMs: number;
      readonly sinceMs: EpochMs | null;
    }
  | { readonly type: 'job-closed' }
  | {
      readonly type:
        | 'opened'
        | 'synced'
        | 'settling'
        | 'folder-made'
        | 'folder-removed'
        | 'modified'
        | 'camera-added';
    };
