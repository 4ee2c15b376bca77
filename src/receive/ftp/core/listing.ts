import { type EpochMs, epochMsToRfc3339 } from '../../../base/index.ts';
import type { FolderEntry } from '../../core/camera-folder.ts';
import { momentToTimeVal } from './moment.ts';
import { textToBytes } from './name-bytes.ts';
import type { FactName } from './session-state.ts';

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/**
 * One line of LIST in the form of `ls -l`, which RFC 959 leaves open and every client reads: mode, links, owner,
 * group, size, date, name. POSIX `ls`: the time of day for the last six months, else the year. Times are UTC.
 */
export function listLine(entry: FolderEntry, nowMs: EpochMs): string {
  const mode = entry.kind === 'folder' ? 'drwxr-xr-x' : '-rw-r--r--';
  const size = String(entry.sizeBytes).padStart(12);
  return `${mode} 1 camera camera ${size} ${listDate(entry.modifiedMs, nowMs)} ${entry.name}`;
}

function listDate(moment: EpochMs, nowMs: EpochMs): string {
  const text = epochMsToRfc3339(moment);
  const day = `${months[Number(text.slice(5, 7)) - 1] ?? 'Jan'} ${text.slice(8, 10)}`;
  const halfYearMs = 182 * 86_400_000;
  const recent = moment <= nowMs && nowMs - moment < halfYearMs;
  return recent ? `${day} ${text.slice(11, 16)}` : `${day}  ${text.slice(0, 4)}`;
}

/** RFC 3659 section 7.2: facts, one blank, the name as it is. */
export function factsLine(entry: FolderEntry, facts: readonly FactName[], name: string = entry.name): string {
  const values: Readonly<Record<FactName, string | null>> = {
    type: entry.kind === 'folder' ? 'dir' : 'file',
    size: entry.kind === 'file' ? String(entry.sizeBytes) : null,
    modify: momentToTimeVal(entry.modifiedMs),
  };
  const told = facts.filter((fact) => values[fact] !== null);
  return `${told.map((fact) => `${fact}=${values[fact]};`).join('')} ${name}`;
}

/** Lines with CR LF in pieces of about 16 kB, made as they are taken: a folder of any length needs no more memory. */
export function* linesInPieces(lines: Iterable<string>): Generator<Uint8Array> {
  let text = '';
  for (const line of lines) {
    text += `${line}\r\n`;
    if (text.length >= 16_384) {
      yield textToBytes(text);
      text = '';
    }
  }
  if (text !== '') yield textToBytes(text);
}
