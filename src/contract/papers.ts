import { z } from 'zod';
import { instant } from './primitives.ts';

export const paperUnderWay = z
  .object({
    frames: z.number().int().nullable().describe('How many frames it will have; null while they are counted'),
    done: z.number().int().describe('How many are drawn'),
    started: instant,
  })
  .meta({ id: 'PaperUnderWay', description: 'A contact sheet that is being drawn for somebody' });

export const papersUnderWay = z
  .object({ contactSheets: z.array(paperUnderWay) })
  .meta({ id: 'PapersUnderWay', description: 'What of a job is being drawn now' });

export type PaperUnderWay = z.infer<typeof paperUnderWay>;
