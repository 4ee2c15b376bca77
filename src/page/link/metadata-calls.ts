import {
  type MetadataSheetEntry,
  type MetadataSheets,
  metadataSheetEntry,
  metadataSheetList,
} from '../../contract/index.ts';
import type { MetadataSheet } from '../../deliver/index.ts';
import { ask, parsed, sendBody } from './station-call.ts';

/** Words for files that are kept for further jobs. */
export async function fetchMetadataSheets(signal: AbortSignal): Promise<MetadataSheets> {
  return parsed(metadataSheetList, await ask('/api/v1/metadata', signal));
}

export async function keepMetadataSheet(metadata: MetadataSheet): Promise<MetadataSheetEntry> {
  return parsed(metadataSheetEntry, await sendBody('POST', '/api/v1/metadata', { metadata }));
}

export async function forgetMetadataSheet(title: string): Promise<void> {
  await sendBody('DELETE', `/api/v1/metadata/${encodeURIComponent(title)}`, null);
}

/** The one of this title that was forgotten last. */
export async function bringMetadataSheetBack(title: string): Promise<MetadataSheetEntry> {
  return parsed(
    metadataSheetEntry,
    await sendBody('POST', `/api/v1/metadata/${encodeURIComponent(title)}/back`, null),
  );
}
