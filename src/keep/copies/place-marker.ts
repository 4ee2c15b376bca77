import { closeSync, fdatasyncSync, mkdirSync, openSync, readFileSync, statSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { errorCode, errorMessage } from '../../base/index.ts';
import type { PlaceAddress, PlaceCheck, PlaceLies, PlaceTrouble } from './copy-shapes.ts';
import { sharesDisk } from './disks-under.ts';
import { isInMemory } from './in-memory.ts';
import { syncFolder } from './sync-folder.ts';

/** Tells a second place from an empty mount point, and from the second place of another station. */
const markerName = 'setside-copy.json';
/** A marker is some sixty bytes; whatever is larger is none. */
const markerBytesMax = 4096;

/** Whether the place is there and ours, and whether it lies apart from the home. */
export function checkPlace(address: PlaceAddress): PlaceCheck {
  try {
    const marked = readMarker(address.folder);
    if (marked === null) return { kind: 'place', trouble: 'away', why: 'no marker' };
    if (marked !== address.place) return { kind: 'place', trouble: 'foreign', why: marked };
    return { kind: 'ready', lies: liesOf(address) };
  } catch (thrown) {
    return placeTrouble(thrown);
  }
}

/** Makes and marks a place that was never used. One that carries another's marker is left alone. */
export function foundPlace(address: PlaceAddress): PlaceCheck {
  try {
    mkdirSync(address.folder, { recursive: true });
    if (readMarker(address.folder) === null) writeMarker(address);
    return checkPlace(address);
  } catch (thrown) {
    return placeTrouble(thrown);
  }
}

/** A system's refusal as what it means for the place. */
export function placeTrouble(thrown: unknown): PlaceTrouble {
  const code = errorCode(thrown);
  const why = errorMessage(thrown);
  if (['ENOENT', 'ENOTDIR', 'ENODEV', 'ESTALE', 'ENOTCONN'].includes(code))
    return { kind: 'place', trouble: 'away', why };
  if (['ENOSPC', 'EDQUOT', 'EFBIG'].includes(code)) return { kind: 'place', trouble: 'full', why };
  return { kind: 'place', trouble: 'failed', why };
}

/** The id in the marker; null where there is no marker. */
export function readMarker(folder: string): string | null {
  const path = join(folder, markerName);
  try {
    if (statSync(path).size > markerBytesMax) return '';
    const data: unknown = JSON.parse(readFileSync(path, 'utf8'));
    const marked = typeof data === 'object' && data !== null && 'place' in data ? data.place : '';
    return typeof marked === 'string' ? marked : '';
  } catch (thrown) {
    if (errorCode(thrown) === 'ENOENT') return null;
    if (thrown instanceof SyntaxError) return '';
    throw thrown;
  }
}

function writeMarker({ folder, place }: PlaceAddress): void {
  const file = openSync(join(folder, markerName), 'wx');
  try {
    writeSync(file, `${JSON.stringify({ setside: 'second place', place })}\n`);
    fdatasyncSync(file);
  } finally {
    closeSync(file);
  }
  syncFolder(folder);
}

/** Two folders of one disk fail together, and with the power goes what memory holds, whatever device it calls itself. */
function liesOf({ home, folder, memoryCounts }: PlaceAddress): PlaceLies {
  if (sharesDisk(home, folder)) return 'same-device';
  return memoryCounts !== true && isInMemory(folder) ? 'in-memory' : 'apart';
}
