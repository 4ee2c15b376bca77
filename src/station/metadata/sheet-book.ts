import { mkdir, rename } from 'node:fs/promises';
import { join } from 'node:path';
import { SetsideError } from '../../base/index.ts';
import type { MetadataSheetEntry, MetadataSheets } from '../../contract/index.ts';
import { type MetadataSheet, nameKey } from '../../deliver/index.ts';
import { freeName, type KeptSheet, readSheetFolder, writeWhole } from './sheet-files.ts';

/** Sheets of one station: clients and kinds of work. */
const sheetsMax = 500;

/**
 * Metadata sheets for further jobs: `metadata/TITLE.json` of the home, each a document that `setside deliver --metadata` takes as well.
 * Known by the title in it; titles that differ only in case or Unicode form are one. Read anew whenever they are asked for: a command may
 * change one while the station runs. What is forgotten lies in `metadata/forgotten/`, the last one of each title.
 */
export class SheetBook {
  readonly #folder: string;
  readonly #forgotten: string;

  constructor(homePath: string) {
    this.#folder = join(homePath, 'metadata');
    this.#forgotten = join(this.#folder, 'forgotten');
  }

  /** By title; files that are no sheets are told, and left as they are. */
  async all(): Promise<MetadataSheets> {
    const { kept, broken } = await readSheetFolder(this.#folder);
    return {
      sheets: kept.map(entryOf),
      broken: broken.map(({ file, findings }) => ({
        file: `metadata/${file}`,
        findings: findings.map(({ code, args }) => ({ code, args: { ...args } })),
      })),
    };
  }

  /** Keeps it under its title, in the place of the one that has it. Rejects `too-many-sheets`. */
  async keep(sheet: MetadataSheet): Promise<{ readonly entry: MetadataSheetEntry; readonly isNew: boolean }> {
    const { kept, names } = await readSheetFolder(this.#folder);
    const before = withTitle(kept, sheet.title);
    if (before === undefined) assertRoom(kept);
    const file = before?.file ?? freeName(sheet.title, names);
    const text = JSON.stringify(sheet, null, 2);
    await mkdir(this.#folder, { recursive: true });
    await writeWhole(join(this.#folder, file), `${text}\n`);
    return { entry: { title: sheet.title, text }, isNew: before === undefined };
  }

  /** False where there was none; jobs that took it over have their own. */
  async forget(title: string): Promise<boolean> {
    const found = withTitle((await readSheetFolder(this.#folder)).kept, title);
    if (found === undefined) return false;
    const { kept, names } = await readSheetFolder(this.#forgotten);
    const before = withTitle(kept, title);
    await mkdir(this.#forgotten, { recursive: true });
    const file = before?.file ?? freeName(found.title, names);
    await rename(join(this.#folder, found.file), join(this.#forgotten, file));
    return true;
  }

  /** The one of this title that was forgotten last; null where none was. Rejects `sheet-there`, `too-many-sheets`. */
  async bringBack(title: string): Promise<MetadataSheetEntry | null> {
    const found = withTitle((await readSheetFolder(this.#forgotten)).kept, title);
    if (found === undefined) return null;
    const { kept, names } = await readSheetFolder(this.#folder);
    if (withTitle(kept, title) !== undefined) {
      throw new SetsideError('sheet-there', `a metadata sheet is kept as ${found.title} already`);
    }
    assertRoom(kept);
    await rename(join(this.#forgotten, found.file), join(this.#folder, freeName(found.title, names)));
    return entryOf(found);
  }
}

function withTitle(sheets: readonly KeptSheet[], title: string): KeptSheet | undefined {
  return sheets.find((each) => nameKey(each.title) === nameKey(title.trim()));
}

function entryOf({ title, text }: KeptSheet): MetadataSheetEntry {
  return { title, text };
}

/** Throws `too-many-sheets`. */
function assertRoom(kept: readonly KeptSheet[]): void {
  if (kept.length < sheetsMax) return;
  throw new SetsideError('too-many-sheets', `there are ${sheetsMax} metadata sheets already`, {
    cure: 'Forget one that is not used any more.',
  });
}
