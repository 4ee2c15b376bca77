import type { RecordBody } from './records.ts';

/**
 * Newest version of the record shapes. Each record carries the version in which its kind came, so that an earlier version
 * reads a journal as long as nothing in it is new, and refuses it from the first record on that is.
 */
export const recordVersion = 7;

/** The version that a record carries: that of its kind, or of the youngest field it has. */
export function versionOf(record: RecordBody): number {
  if (record.type === 'put-back') return 7;
  if ('who' in record && record.who !== undefined) return 6;
  if (record.type === 'job-hand-over-set' && record.metadata !== undefined) return 5;
  if (typesOfVersion5.has(record.type)) return 5;
  if (typesOfVersion4.has(record.type)) return 4;
  if (typesOfVersion3.has(record.type)) return 3;
  if (record.type === 'shot-stated' && (record.shot.lookId ?? record.shot.order) !== undefined) return 3;
  return typesOfVersion2.has(record.type) ? 2 : 1;
}

const typesOfVersion2: ReadonlySet<RecordBody['type']> = new Set<RecordBody['type']>([
  'job-described',
  'job-state-set',
  'job-tolerances-set',
  'job-removed',
  'shot-stated',
  'shots-ordered',
  'shot-removed',
  'shot-current-set',
  'purpose-set',
  'acceptance-set',
  'camera-clock-set',
]);

const typesOfVersion3: ReadonlySet<RecordBody['type']> = new Set<RecordBody['type']>([
  'copy-lost',
  'folded',
  'job-grey-card-set',
  'job-hand-over-set',
  'job-colour-set',
  'job-targets-set',
  'job-scales-set',
  'job-last-numbers-set',
  'job-explained-set',
  'job-signed-set',
  'shot-followed',
  'slate-heeded',
  'spot-set',
  'look-set',
  'look-saved',
  'look-aside-set',
]);

const typesOfVersion4: ReadonlySet<RecordBody['type']> = new Set<RecordBody['type']>([
  'share-set',
  'remark-made',
  'remark-answered',
  'remark-settled',
  'agreed',
  'agreement-withdrawn',
]);

const typesOfVersion5: ReadonlySet<RecordBody['type']> = new Set<RecordBody['type']>(['card-checked']);
