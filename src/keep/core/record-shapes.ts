import { choiceShapes } from './choice-shapes.ts';
import {
  exactly,
  type Fields,
  hasExactly,
  homePath,
  id,
  label,
  listOf,
  moment,
  oneOf,
  orLeftOut,
  orNull,
  sha256,
  text,
  via,
  viewPath,
  whole,
  yesOrNo,
} from './field-checks.ts';
import { versionOf } from './record-version.ts';
import type { JournalRecord, RecordBody } from './records.ts';

/**
 * Whether a value parsed from a journal line is a record, field by field. The writer asks before writing and the
 * reader after reading, so that a wrong record is stopped on the side that made it.
 */
export function isJournalRecord(value: unknown): value is JournalRecord {
  if (typeof value !== 'object' || value === null) return false;
  const fields = new Map<string, unknown>(Object.entries(value));
  const type = fields.get('type');
  if (typeof type !== 'string' || !Object.hasOwn(shapes, type)) return false;
  // `type` is a key of `shapes` by the line above; the compiler does not narrow on hasOwn.
  const known = type as RecordBody['type'];
  const shape: Fields = { type: (value) => value === known, ...stamp, ...shapes[known] };
  // The shape holds, so the value is a record of this type, whatever its version.
  return hasExactly(shape, fields) && fields.get('v') === versionOf(value as RecordBody);
}

/** The version a line claims, or null: a newer one is told apart from damage. */
export function claimedVersion(value: unknown): number | null {
  return typeof value === 'object' && value !== null && 'v' in value && typeof value.v === 'number'
    ? value.v
    : null;
}

/** Cameras on one card: two as a rule, a rental house's at most. */
export const cardLastsMax = 50;

const stamp: Fields = {
  v: whole,
  seq: (value) => whole(value) && value !== 0,
  group: (value) => whole(value) && value !== 0,
  atMs: moment,
};

const keptFile: Fields = {
  arrival: id,
  frame: id,
  job: label,
  camera: label,
  path: viewPath,
  name: (value) => text(255)(value) && value !== '',
  original: homePath,
  sizeBytes: whole,
  sha256,
  wholeness: oneOf('whole', 'unknown', 'damaged'),
  expectedBytes: orNull(whole),
  firstByteMs: orNull(moment),
  lastByteMs: orNull(moment),
};

const shapes: Readonly<Record<RecordBody['type'], Fields>> = {
  opened: { bootId: orNull(label) },
  announced: {
    arrival: id,
    frame: id,
    job: label,
    camera: label,
    path: viewPath,
    incoming: (value) => homePath(value) && !String(value).includes('/'),
    via,
    announcedBytes: orNull(whole),
    prefixOf: orNull(id),
    prefixBytes: whole,
    over: orNull(id),
  },
  resumed: { arrival: id, via, offsetBytes: whole, announcedBytes: orNull(whole) },
  synced: { arrival: id, sizeBytes: whole },
  settling: keptFile,
  kept: keptFile,
  'broken-off': {
    arrival: id,
    sizeBytes: whole,
    expectedBytes: orNull(whole),
    sha256: orNull(sha256),
    end: oneOf(
      'closed',
      'unclosed',
      'reset',
      'control-lost',
      'aborted',
      'stalled',
      'stopping',
      'dismissed',
      'failed',
      'died',
    ),
    firstByteMs: orNull(moment),
    lastByteMs: orNull(moment),
  },
  again: { arrival: id, sameAs: id, sizeBytes: whole, sha256 },
  'made-good': { arrival: id, by: id },
  'let-go': { arrival: id },
  folded: { arrival: id, into: id, sizeBytes: whole, sha256 },
  'folder-made': { camera: label, path: viewPath },
  'folder-removed': { camera: label, path: viewPath },
  renamed: { camera: label, from: viewPath, to: viewPath, arrival: orNull(id) },
  hidden: { camera: label, path: viewPath, arrival: id },
  modified: { camera: label, path: viewPath, modifiedMs: moment },
  'place-made': { place: id, folder: (value) => text(4096)(value) && value !== '' },
  copied: {
    arrival: id,
    place: id,
    readBack: oneOf('direct', 'cached'),
    otherDevice: (value) => typeof value === 'boolean',
  },
  'copy-lost': { arrival: id, place: id, why: oneOf('missing', 'size', 'unreadable') },
  'put-back': { arrival: id, place: id, aside: orNull(homePath) },
  'card-checked': {
    folder: (value) => text(4096)(value) && value !== '',
    files: whole,
    bytes: whole,
    safe: whole,
    once: whole,
    missing: whole,
    unread: whole,
    isSafe: yesOrNo,
    lasts: listOf(exactly({ camera: label, prefix: text(10), counter: whole }), cardLastsMax),
  },
  ...withWho(choiceShapes),
};

function withWho<Shapes extends Readonly<Record<string, Fields>>>(
  shapes: Shapes,
): Record<keyof Shapes, Fields> {
  const all = Object.entries(shapes).map(([type, fields]) => [type, { ...fields, who: orLeftOut(label) }]);
  // The same keys as before.
  return Object.fromEntries(all) as Record<keyof Shapes, Fields>;
}
