import { readFile } from 'node:fs/promises';
import { SetsideError } from '../base/index.ts';
import { type MetadataSheet, readMetadataSheetText } from '../deliver/index.ts';
import { sentence } from '../words/index.ts';

/** A metadata sheet out of a file. Errors: `bad-metadata`, the system's own. */
export async function sheetOfFile(path: string): Promise<MetadataSheet> {
  return sheetOfText(await readFile(path, 'utf8'), path);
}

/** The same out of a text; `whose` begins what is said of a bad one. Errors: `bad-metadata`. */
export function sheetOfText(text: string, whose: string): MetadataSheet {
  const read = readMetadataSheetText(text);
  if (read.sheet !== null) return read.sheet;
  const why = read.findings.map((each) => sentence(each)).join(' ');
  throw new SetsideError('bad-metadata', `${whose}: ${why}`, {
    cure: 'docs/metadata.schema.json says what can be written.',
  });
}
