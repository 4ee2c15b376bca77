import { type EpochMs, epochMsToRfc3339 } from '../../base/index.ts';
import type { FolderEntry } from './camera-folder.ts';

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
