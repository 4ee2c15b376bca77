import { open, readdir, readFile, rename, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { errorCode } from '../../base/index.ts';
import { nameKey, readMetadataSheetText, safeStem, specificationTextMax } from '../../deliver/index.ts';
import type { Finding } from '../../facts/index.ts';

export interface KeptSheet {
  readonly file: string;
  readonly title: string;
  readonly text: string;
}

/** A file in the folder that is no sheet, and why. */
export interface BrokenSheet {
  readonly file: string;
  readonly findings: readonly Finding[];
}

export interface SheetFolder {
  /** By title, each title once. */
  readonly kept: readonly KeptSheet[];
  readonly broken: readonly BrokenSheet[];
  /** Of every file there, as {@link nameKey} has them: none of them is written over. */
  readonly names: ReadonlySet<string>;
}

/** UTF-8 takes at most three bytes for a character as a string counts them. */
const bytesMax = 3 * specificationTextMax;

/** What lies in a folder of sheets; nothing where there is none. A file that cannot be used does not hide the others. */
export async function readSheetFolder(folder: string): Promise<SheetFolder> {
  const files = await readdir(folder).catch((thrown: unknown) => {
    if (errorCode(thrown) === 'ENOENT') return [];
    throw thrown;
  });
  const kept = new Map<string, KeptSheet>();
  const broken: BrokenSheet[] = [];
  for (const file of files.filter((each) => each.endsWith('.json')).sort()) {
    const read = await readSheetFile(folder, file);
    const other = 'title' in read ? kept.get(nameKey(read.title)) : undefined;
    if (!('title' in read)) broken.push(read);
    else if (other === undefined) kept.set(nameKey(read.title), read);
    else broken.push({ file, findings: [sameTitle(read.title, other.file)] });
  }
  return {
    kept: [...kept].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, sheet]) => sheet),
    broken,
    names: new Set(files.map(nameKey)),
  };
}

async function readSheetFile(folder: string, file: string): Promise<KeptSheet | BrokenSheet> {
  const path = join(folder, file);
  try {
    if ((await stat(path)).size > bytesMax) return { file, findings: [tooLong] };
    const text = (await readFile(path, 'utf8')).trim();
    const read = readMetadataSheetText(text);
    return read.sheet === null ? { file, findings: read.findings } : { file, title: read.sheet.title, text };
  } catch (thrown) {
    return { file, findings: [{ code: 'metadata.not-read', args: { error: errorCode(thrown) } }] };
  }
}

const tooLong: Finding = { code: 'deliver.too-long', args: { charactersMax: specificationTextMax } };

function sameTitle(title: string, other: string): Finding {
  return { code: 'metadata.same-title', args: { title, other } };
}

/** A name for the file of this title; titles that a file's name cannot tell apart get a number. */
export function freeName(title: string, taken: ReadonlySet<string>): string {
  const stem = safeStem(title, '-999.json');
  let name = `${stem}.json`;
  for (let number = 2; taken.has(nameKey(name)); number++) name = `${stem}-${number}.json`;
  return name;
}

/** Written beside, synced and renamed: a crash leaves the old file or the new one. */
export async function writeWhole(path: string, text: string): Promise<void> {
  const handle = await open(`${path}.new`, 'w');
  try {
    await handle.writeFile(text);
    await handle.sync();
  } finally {
    await handle.close();
  }
  await rename(`${path}.new`, path);
}
