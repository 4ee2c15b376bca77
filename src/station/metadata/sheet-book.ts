import { mkdir, open, readdir, readFile, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { errorCode, SetsideError } from '../../base/index.ts';
import type { MetadataSheetEntry } from '../../contract/index.ts';
import { type MetadataSheet, nameKey, readMetadataSheetText, safeStem } from '../../deliver/index.ts';
import { sentence } from '../../words/index.ts';

/** Sheets of one station: clients and kinds of work. */
const sheetsMax = 500;

interface KeptSheet extends MetadataSheetEntry {
  readonly file: string;
}

/**
 * Metadata sheets for further jobs: `metadata/TITLE.json` of the home, each a document that `setside deliver --metadata` takes as well.
 * Known by the title in it; titles that differ only in case or Unicode form are one. Read anew whenever they are asked for: a command may
 * change one while the station runs.
 */
export class SheetBook {
  readonly #folder: string;

  constructor(homePath: string) {
    this.#folder = join(homePath, 'metadata');
  }

  /** By title. Rejects `bad-settings` where a file holds something else. */
  async all(): Promise<readonly MetadataSheetEntry[]> {
    const kept = await this.#kept();
    return kept.map(({ title, text }) => ({ title, text }));
  }

  /** Null where none has this title. */
  async one(title: string): Promise<MetadataSheetEntry | null> {
    const found = (await this.#kept()).find((each) => nameKey(each.title) === nameKey(title.trim()));
    return found === undefined ? null : { title: found.title, text: found.text };
  }

  /** Keeps it under its title, in the place of the one that has it. Rejects `too-many-sheets`. */
  async keep(sheet: MetadataSheet): Promise<{ readonly entry: MetadataSheetEntry; readonly isNew: boolean }> {
    const kept = await this.#kept();
    const before = kept.find(({ title }) => nameKey(title) === nameKey(sheet.title));
    if (before === undefined && kept.length >= sheetsMax) {
      throw new SetsideError('too-many-sheets', `there are ${sheetsMax} metadata sheets already`, {
        cure: 'Forget one that is not used any more.',
      });
    }
    const file = before?.file ?? freeName(sheet.title, new Set(kept.map((each) => nameKey(each.file))));
    const text = JSON.stringify(sheet, null, 2);
    await mkdir(this.#folder, { recursive: true });
    await writeWhole(join(this.#folder, file), `${text}\n`);
    return { entry: { title: sheet.title, text }, isNew: before === undefined };
  }

  /** False where there was none; jobs that took it over have their own. */
  async forget(title: string): Promise<boolean> {
    const found = (await this.#kept()).find((each) => nameKey(each.title) === nameKey(title.trim()));
    if (found === undefined) return false;
    await rm(join(this.#folder, found.file), { force: true });
    return true;
  }

  async #kept(): Promise<readonly KeptSheet[]> {
    const files = await readdir(this.#folder).catch((thrown: unknown) => {
      if (errorCode(thrown) === 'ENOENT') return [];
      throw thrown;
    });
    const kept: KeptSheet[] = [];
    for (const file of files.filter((each) => each.endsWith('.json'))) {
      const text = (await readFile(join(this.#folder, file), 'utf8')).trim();
      const read = readMetadataSheetText(text);
      if (read.sheet === null) {
        const why = read.findings.map((each) => sentence(each)).join(' ');
        throw new SetsideError('bad-settings', `${join(this.#folder, file)} is no metadata sheet: ${why}`, {
          cure: 'Mend it after docs/metadata.schema.json, or take it away.',
        });
      }
      kept.push({ file, title: read.sheet.title, text });
    }
    return kept.sort((a, b) => (nameKey(a.title) < nameKey(b.title) ? -1 : 1));
  }
}

/** Titles that a file's name cannot tell apart get a number. */
function freeName(title: string, taken: ReadonlySet<string>): string {
  const stem = safeStem(title, '-999.json');
  let name = `${stem}.json`;
  for (let number = 2; taken.has(nameKey(name)); number++) name = `${stem}-${number}.json`;
  return name;
}

/** Written beside, synced and renamed: a crash leaves the old file or the new one. */
async function writeWhole(path: string, text: string): Promise<void> {
  const handle = await open(`${path}.new`, 'w');
  try {
    await handle.writeFile(text);
    await handle.sync();
  } finally {
    await handle.close();
  }
  await rename(`${path}.new`, path);
}
