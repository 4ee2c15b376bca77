import { readdirSync, readFileSync, realpathSync, statSync } from 'node:fs';
import { basename, dirname, join, sep } from 'node:path';

/** Where the system tells of its disks; for tests, which make one up. */
export interface SystemFolders {
  readonly proc: string;
  readonly sys: string;
}

const linux: SystemFolders = { proc: '/proc', sys: '/sys' };
/** Volumes upon volumes upon images; nobody stacks as many. */
const depthMax = 8;

/**
 * Whether two folders fail together: they have one device, or lie on one disk. Two partitions of a disk, two volumes of a group, or
 * an image in a file have devices of their own and go with the disk under them. Linux tells what lies under what; elsewhere, and
 * for file systems without a block device of their own, the device alone is compared. Throws what the system throws.
 */
export function sharesDisk(one: string, other: string, system: SystemFolders = linux): boolean {
  if (statSync(one, { bigint: true }).dev === statSync(other, { bigint: true }).dev) return true;
  const disks = disksUnder(one, system);
  return [...disksUnder(other, system)].some((disk) => disks.has(disk));
}

/** Names of the disks that hold what lies in a folder, as the kernel calls them; none where it does not say. */
export function disksUnder(folder: string, system: SystemFolders = linux, depth = 0): ReadonlySet<string> {
  const source = sourceOf(read(join(system.proc, 'self/mountinfo')) ?? '', realOf(folder) ?? folder);
  if (source?.startsWith('/dev/') !== true) return new Set();
  return disksOf(basename(realOf(source) ?? source), system, depth);
}

/** sysfs: a partition lies in the folder of its disk; volumes name their `slaves`, an image its file. */
function disksOf(block: string, system: SystemFolders, depth: number): ReadonlySet<string> {
  const folder = realOf(join(system.sys, 'class/block', block));
  if (folder === null || depth > depthMax) return new Set();
  const disk = read(join(folder, 'partition')) === null ? folder : dirname(folder);
  const under = namesIn(join(disk, 'slaves')).map((slave) => disksOf(slave, system, depth + 1));
  const image = read(join(disk, 'loop/backing_file'))?.trimEnd();
  if (image !== undefined) under.push(disksUnder(image, system, depth + 1));
  const disks = new Set(under.flatMap((each) => [...each]));
  return disks.size === 0 ? new Set([basename(disk)]) : disks;
}

/** Of `mountinfo` (proc_pid_mountinfo(5)): what is mounted where a path lies; the innermost, and of those the last. */
export function sourceOf(mountinfo: string, path: string): string | null {
  let found: { readonly folder: string; readonly source: string } | null = null;
  for (const line of mountinfo.split('\n')) {
    const [before = '', after = ''] = line.split(' - ');
    const folder = unescaped(before.split(' ')[4] ?? '');
    const source = unescaped(after.split(' ')[1] ?? '');
    const isOver = path === folder || path.startsWith(folder.endsWith(sep) ? folder : folder + sep);
    if (folder !== '' && isOver && folder.length >= (found?.folder.length ?? 0)) found = { folder, source };
  }
  return found?.source ?? null;
}

/** Blanks are written as `\040`. */
function unescaped(text: string): string {
  return text.replace(/\\([0-7]{3})/g, (_, octal: string) => String.fromCharCode(Number.parseInt(octal, 8)));
}

function read(path: string): string | null {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return null;
  }
}

function namesIn(folder: string): readonly string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}

function realOf(path: string): string | null {
  try {
    return realpathSync(path);
  } catch {
    return null;
  }
}
