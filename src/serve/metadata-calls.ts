import type { MetadataSheetEntry, MetadataSheets } from '../contract/index.ts';
import type { MetadataSheet } from '../deliver/index.ts';

/** What the web door needs of the station about kept metadata sheets. */
export interface MetadataCalls {
  metadataSheets(): Promise<MetadataSheets>;
  /** Keeps it under its title, in the place of the one that has it. Rejects `too-many-sheets`. */
  keepMetadataSheet(
    sheet: MetadataSheet,
  ): Promise<{ readonly entry: MetadataSheetEntry; readonly isNew: boolean }>;
  /** False where there was none of this title. */
  forgetMetadataSheet(title: string): Promise<boolean>;
  /** Null where none of this title was forgotten. Rejects `sheet-there`, `too-many-sheets`. */
  bringMetadataSheetBack(title: string): Promise<MetadataSheetEntry | null>;
}
