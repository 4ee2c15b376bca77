import { expectedFiles, marks } from '../../facts/index.ts';
import type { JournalRecord, RecordBody } from './records.ts';

/** Whether a value is what a field may hold. */
type Check = (value: unknown) => boolean;
type Fields = Readonly<Record<string, Check>>;

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
  const shape = { ...stamp, ...shapes[type as RecordBody['type']] };
  const wanted = Object.entries(shape);
  return fields.size === wanted.length + 1 && wanted.every(([name, check]) => check(fields.get(name)));
}

/** The version a line claims, or null: a newer one is told apart from damage. */
export function claimedVersion(value: unknown): number | null {
  return typeof value === 'object' && value !== null && 'v' in value && typeof value.v === 'number'
    ? value.v
    : null;
}

const whole: Check = (value) => Number.isSafeInteger(value) && Number(value) >= 0;
const moment: Check = (value) => typeof value === 'number' && Number.isFinite(value);
const text =
  (charactersMax: number): Check =>
  (value) =>
    typeof value === 'string' && value.length <= charactersMax;
const orNull =
  (check: Check): Check =>
  (value) =>
    value === null || check(value);
const oneOf =
  (...values: readonly unknown[]): Check =>
  (value) =>
    values.includes(value);

/** Ids become part of file names. */
const id: Check = (value) => typeof value === 'string' && /^[A-Za-z0-9_-]{1,64}$/.test(value);
const sha256: Check = (value) => typeof value === 'string' && /^[0-9a-f]{64}$/.test(value);
const label: Check = (value) => text(200)(value) && value !== '';
const words: Check = text(1000);
/** 16 parts of 255 bytes and their slashes; every byte is at most one UTF-16 unit. */
const viewPath: Check = (value) => text(4096)(value) && String(value).startsWith('/');
const via: Check = oneOf('ftp', 'ftps', 'sftp', 'folder');
/** Below the home, and never out of it. */
const homePath: Check = (value) =>
  text(4096)(value) &&
  String(value)
    .split('/')
    .every((part) => part !== '' && part !== '.' && part !== '..');
const shots: Check = (value) =>
  Array.isArray(value) &&
  value.length <= 500 &&
  value.every((shot: unknown) => {
    if (typeof shot !== 'object' || shot === null) return false;
    return 'id' in shot && label(shot.id) && 'name' in shot && text(200)(shot.name);
  });

const stamp: Fields = {
  v: oneOf(1),
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
      'failed',
      'died',
    ),
    firstByteMs: orNull(moment),
    lastByteMs: orNull(moment),
  },
  again: { arrival: id, sameAs: id, sizeBytes: whole, sha256 },
  'made-good': { arrival: id, by: id },
  'let-go': { arrival: id },
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
  'mark-set': { frame: id, mark: oneOf(...marks) },
  'shot-set': { frame: id, shot: orNull(label) },
  'job-opened': { code: label, title: words, client: words, shots },
  'job-set': { frame: id, job: label },
  'job-closed': {},
  'camera-set': { camera: label, expects: oneOf(null, ...expectedFiles) },
  'camera-added': { name: label, user: label, passwordHash: orNull(words) },
};
