import {
  type MetadataSheet,
  type ReadSheet,
  readMetadataSheet,
  readMetadataSheetText,
} from '../deliver/index.ts';
import { sentence } from '../words/index.ts';
import { Refusal } from './errors.ts';

/** A metadata sheet out of a document that came in. Throws `bad-metadata`, which names every field that is wrong. */
export function sheetOrRefuse(document: Readonly<Record<string, unknown>>): MetadataSheet {
  return readOrRefuse(readMetadataSheet(document));
}

/** Whether the text is a metadata sheet, or empty where nobody says anything. Throws `bad-metadata`. */
export function assertSheetText(text: string | undefined): void {
  if (text !== undefined && text !== '') readOrRefuse(readMetadataSheetText(text));
}

function readOrRefuse(read: ReadSheet): MetadataSheet {
  if (read.sheet !== null) return read.sheet;
  throw new Refusal('bad-metadata', read.findings.map((each) => sentence(each)).join(' '), read.findings[0]);
}
