import { statSync } from 'node:fs';
import { join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import { errorMessage, SetsideError } from '../../base/index.ts';
import type { Finding } from '../../facts/index.ts';
import { sharesDisk } from '../copies/disks-under.ts';
import { checkPlace } from '../copies/place-marker.ts';
import { readBack } from '../copies/read-back.ts';
import type { KeptFile } from '../core/arrival-records.ts';
import { KeepState } from '../core/keep-state.ts';
import { replayJournal } from '../journal-reader.ts';
import { nodeDisk } from '../node-disk.ts';
import type { CardFile, CardProgress, CardReport } from './card-report.ts';
import { type CardListing, listCard } from './list-card.ts';

export interface CheckCardOptions {
  /** Whether a second place in memory counts; for tests. Default: false. */
  readonly memoryCounts?: boolean;
  /** The device that the card is taken to be; for tests, which have no card. Default: the one its folder lies on. */
  readonly cardDevice?: bigint;
}

/** A second place, and what is wrong with it as a whole. */
interface Place {
  readonly folder: string;
  readonly trouble: Finding | null;
}

interface Known {
  readonly home: string;
  readonly bySize: ReadonlyMap<number, readonly KeptFile[]>;
  readonly places: readonly Place[];
}

/**
 * Holds every file of a card against originals and copies. Believes no record: the card's file, the original and each copy
 * are read now, past the system's memory where that can be, and compared by SHA-256. Takes the calling thread, but for a
 * moment between two files; meant for a command. Changes nothing, least of all on the card. A card that is pulled out ends the check; what was proved by then
 * stays in the report. Rejects `no-card` where there is no such folder.
 */
export async function checkCard(
  home: string,
  folder: string,
  onProgress: (progress: CardProgress) => void = () => {},
  options: CheckCardOptions = {},
): Promise<CardReport> {
  const { files, passedOver } = listingOf(folder);
  const bytes = files.reduce((sum, { sizeBytes }) => sum + sizeBytes, 0);
  const known = await knownOf(home, folder, options);
  const checked: CardFile[] = [];
  const findings: Finding[] = [];
  if (isOnCard(home, folder, options)) findings.push({ code: 'card.is-home', args: { folder } });
  if (files.length === 0) findings.push({ code: 'card.empty', args: { folder } });
  let doneBytes = 0;
  let isGone = false;
  for (const [doneFiles, file] of files.entries()) {
    onProgress({ doneFiles, files: files.length, doneBytes, bytes, path: file.path });
    // A process that reads for a station hears between two files that the station is gone, and ends.
    await setImmediate();
    const found = isGone ? unread(file, 'the card is gone') : checkFile(known, folder, file);
    doneBytes += file.sizeBytes;
    checked.push(found);
    // One file that cannot be read is a bad spot; the folder that cannot is a card that was pulled out.
    if (found.state === 'unread' && !isGone && !isThere(folder)) {
      isGone = true;
      findings.push({ code: 'card.gone', args: { folder, done: doneFiles, count: files.length } });
    }
  }
  const isApart = !findings.some(({ code }) => code === 'card.is-home');
  const safe = isApart && checked.length > 0 && checked.every(({ state }) => state === 'safe');
  // A place that is away or counts for nothing may be why a file is not safe. Where all are, it stands in nobody's way: it may have
  // been given up long ago.
  const troubles = safe ? [] : known.places.flatMap(({ trouble }) => trouble ?? []);
  return { folder, files: checked, bytes, passedOver, findings: [...troubles, ...findings], safe };
}

function listingOf(folder: string): CardListing {
  try {
    return listCard(folder);
  } catch (cause) {
    throw new SetsideError('no-card', `${folder} cannot be read: ${errorMessage(cause)}`, {
      cause,
      cure: 'Put the card in, and name the folder that it is shown under.',
    });
  }
}

async function knownOf(home: string, card: string, options: CheckCardOptions): Promise<Known> {
  const state = new KeepState();
  await replayJournal(nodeDisk(), join(home, 'journal'), (record) => state.apply(record));
  const bySize = new Map<number, KeptFile[]>();
  for (const { phase } of state.arrivals.values()) {
    if (phase.kind !== 'kept') continue;
    const { file } = phase;
    bySize.set(file.sizeBytes, [...(bySize.get(file.sizeBytes) ?? []), file]);
  }
  const places = [...state.usedPlaces].map((place): Place => {
    const folder = state.places.get(place) ?? '';
    const check = checkPlace({ home, folder, place, memoryCounts: options.memoryCounts ?? false });
    if (check.kind === 'place') {
      const args = check.trouble === 'failed' ? { folder, why: check.why } : { folder };
      return { folder, trouble: { code: `copy.${check.trouble}`, args } };
    }
    if (check.lies !== 'apart') return { folder, trouble: { code: `copy.${check.lies}`, args: { folder } } };
    if (isOnCard(folder, card, options))
      return { folder, trouble: { code: 'card.is-place', args: { folder } } };
    return { folder, trouble: null };
  });
  return { home, bySize, places };
}

function checkFile(
  known: Known,
  folder: string,
  { path, sizeBytes }: CardListing['files'][number],
): CardFile {
  const same = known.bySize.get(sizeBytes) ?? [];
  const nothing = { path, sizeBytes, original: null, camera: null, copies: [] };
  // No file of this size is known: it need not be read to be missing.
  if (same.length === 0) return { ...nothing, sha256: null, state: 'missing', findings: [] };
  let sha256: string;
  try {
    const read = readBack(join(folder, ...path.split('/')));
    if (read.sizeBytes !== sizeBytes) return unread({ path, sizeBytes }, 'its size has changed');
    sha256 = read.sha256;
  } catch (thrown) {
    return unread({ path, sizeBytes }, errorMessage(thrown));
  }
  const matching = same.filter((file) => file.sha256 === sha256);
  if (matching.length === 0) return { ...nothing, sha256, state: 'missing', findings: [] };
  const tried = matching.map((file) => proofOf(known, file, sha256));
  const best =
    tried.find(({ state }) => state === 'safe') ?? tried.find(({ state }) => state === 'once') ?? tried[0];
  return {
    path,
    sizeBytes,
    sha256,
    ...(best ?? { state: 'missing', original: null, camera: null, copies: [], findings: [] }),
  };
}

/** Reads the original and its copies now. */
function proofOf(
  { home, places }: Known,
  { original, camera }: KeptFile,
  sha256: string,
): Pick<CardFile, 'state' | 'original' | 'camera' | 'copies' | 'findings'> {
  const findings: Finding[] = [];
  const holds = (top: string): boolean => {
    try {
      return readBack(join(top, ...original.split('/'))).sha256 === sha256;
    } catch {
      return false;
    }
  };
  const isKept = holds(home);
  if (!isKept) findings.push({ code: 'card.original-bad', args: { original } });
  const copies: string[] = [];
  for (const { folder, trouble } of places) {
    if (trouble !== null) continue;
    if (holds(folder)) copies.push(folder);
    else findings.push({ code: 'card.no-copy', args: { original, folder } });
  }
  const isSafe = isKept && copies.length > 0;
  const state = isSafe ? 'safe' : isKept || copies.length > 0 ? 'once' : 'missing';
  return { state, original: isKept ? original : null, camera, copies, findings };
}

function unread(file: Pick<CardFile, 'path' | 'sizeBytes'>, why: string): CardFile {
  const findings = [{ code: 'card.unread', args: { path: file.path, why } }];
  return { ...file, sha256: null, state: 'unread', original: null, camera: null, copies: [], findings };
}

/** An empty mount point is left where a card was pulled out. */
function isThere(folder: string): boolean {
  try {
    return listCard(folder).files.length > 0;
  } catch {
    return false;
  }
}

/** What lies on the card's own disk goes with it. */
function isOnCard(place: string, card: string, { cardDevice }: CheckCardOptions): boolean {
  return cardDevice === undefined
    ? sharesDisk(place, card)
    : statSync(place, { bigint: true }).dev === cardDevice;
}
