import type { Kysely } from 'kysely';
import { applyArrivalRecord } from './apply-arrival-record.ts';
import { applyCameraRecord } from './apply-camera-record.ts';
import { applyCopyRecord } from './apply-copy-record.ts';
import { applyFrameChoice } from './apply-frame-choice.ts';
import { applyJobRecord, layAside, openJob } from './apply-job-record.ts';
import { applyLookChoice } from './look-queries.ts';
import type { RegisterRecord } from './records.ts';
import { applyRemarkChoice } from './remark-queries.ts';
import type { Tables } from './tables.ts';

/** Carries one record into the tables. A record about an arrival that no record announced changes nothing. */
export async function applyRecord(db: Kysely<Tables>, record: RegisterRecord): Promise<void> {
  switch (record.type) {
    case 'announced':
    case 'resumed':
    case 'broken-off':
    case 'kept':
    case 'again':
    case 'made-good':
    case 'let-go':
    case 'renamed':
    case 'hidden':
    case 'folded':
      return applyArrivalRecord(db, record);
    case 'copied':
    case 'copy-lost':
    case 'place-made':
      return applyCopyRecord(db, record);
    case 'mark-set':
    case 'shot-set':
    case 'shot-followed':
    case 'slate-heeded':
    case 'job-set':
    case 'purpose-set':
    case 'spot-set':
    case 'look-set':
    case 'share-set':
    case 'acceptance-set':
      return applyFrameChoice(db, record);
    case 'remark-made':
    case 'remark-answered':
    case 'remark-settled':
      return applyRemarkChoice(db, record);
    case 'job-described':
    case 'job-state-set':
    case 'job-tolerances-set':
    case 'job-grey-card-set':
    case 'job-hand-over-set':
    case 'job-colour-set':
    case 'job-targets-set':
    case 'job-scales-set':
    case 'job-last-numbers-set':
    case 'job-explained-set':
    case 'job-signed-set':
    case 'agreed':
    case 'agreement-withdrawn':
    case 'job-removed':
    case 'shot-stated':
    case 'shots-ordered':
    case 'shot-removed':
    case 'shot-current-set':
      return applyJobRecord(db, record);
    case 'look-saved':
    case 'look-aside-set':
      return applyLookChoice(db, record);
    case 'camera-set':
    case 'camera-clock-set':
      return applyCameraRecord(db, record);
    case 'job-opened':
      return openJob(db, record);
    case 'job-closed':
      return layAside(db, null);
    case 'opened':
    case 'synced':
    case 'settling':
    case 'folder-made':
    case 'folder-removed':
    case 'modified':
    case 'camera-added':
    case 'card-checked':
    case 'put-back':
      return;
  }
}
