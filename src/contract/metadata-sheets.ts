import { z } from 'zod';
import { finding } from './primitives.ts';

/** What a kept sheet is called: the title that stands in it. */
export const metadataSheetTitle = z.string().trim().min(1).max(80);

export const metadataSheetEntry = z
  .object({
    title: z.string().describe('Whose it is; kept by it'),
    text: z.string().describe('The document as text, as `metadata` of a job takes it'),
  })
  .meta({ id: 'MetadataSheetEntry', description: 'A metadata sheet that is kept for further jobs' });

export const metadataSheetList = z
  .object({
    sheets: z.array(metadataSheetEntry),
    broken: z
      .array(
        z.object({
          file: z.string().describe('Its name below the home of the station'),
          findings: z.array(finding),
        }),
      )
      .describe(
        'Files that lie there and are no sheets, or have the title of another; they are left as they are',
      ),
  })
  .meta({ id: 'MetadataSheetList', description: 'Kept metadata sheets, by title' });

export const putMetadataSheet = z
  .object({
    metadata: z.record(z.string(), z.unknown()).describe('A document after docs/metadata.schema.json'),
  })
  .strict()
  .meta({ id: 'PutMetadataSheet', description: 'A metadata sheet to keep under its title' });

export type MetadataSheetEntry = z.infer<typeof metadataSheetEntry>;
export type MetadataSheets = z.infer<typeof metadataSheetList>;
