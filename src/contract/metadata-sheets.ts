import { z } from 'zod';

/** What a kept sheet is called: the title that stands in it. */
export const metadataSheetTitle = z.string().trim().min(1).max(80);

export const metadataSheetEntry = z
  .object({
    title: z.string().describe('Whose it is; kept by it'),
    text: z.string().describe('The document as text, as `metadata` of a job takes it'),
  })
  .meta({ id: 'MetadataSheetEntry', description: 'A metadata sheet that is kept for further jobs' });

export const metadataSheetList = z
  .object({ sheets: z.array(metadataSheetEntry) })
  .meta({ id: 'MetadataSheetList', description: 'Kept metadata sheets, by title' });

export const putMetadataSheet = z
  .object({
    metadata: z.record(z.string(), z.unknown()).describe('A document after docs/metadata.schema.json'),
  })
  .strict()
  .meta({ id: 'PutMetadataSheet', description: 'A metadata sheet to keep under its title' });

export type MetadataSheetEntry = z.infer<typeof metadataSheetEntry>;
