import { z } from 'zod';
import { finding, instant } from './primitives.ts';

/** Files of a card that are named in an answer; more are counted. */
export const cardFilesNamedMax = 200;

const count = z.number().int().nonnegative();

export const cardFile = z
  .object({
    path: z.string().describe('Below the folder, with `/`'),
    sizeBytes: z.number().nonnegative(),
    state: z
      .enum(['once', 'missing', 'unread'])
      .describe('Here in one place only; these bytes are not here; the card did not give it'),
    findings: z.array(finding),
  })
  .meta({ id: 'CardFile', description: 'A file of a card that is not proved to be here twice' });

const cardCounts = z.object({ safe: count, once: count, missing: count, unread: count });

export const cardTakingIn = z
  .object({
    camera: z.string(),
    state: z.enum(['running', 'done', 'stopped', 'card-gone', 'no-room']),
    files: count,
    taken: count,
    bytes: z.number().nonnegative(),
    takenBytes: z.number().nonnegative(),
    toGoMs: z.number().nonnegative().nullable(),
    left: z.array(z.string()).describe('Paths that were tried and could not be taken in'),
  })
  .meta({
    id: 'CardTakingIn',
    description: 'What was missing is copied from the card, as if that camera sent it',
  });

export const cardCheck = z
  .object({
    id: z.string(),
    folder: z.string(),
    state: z.enum(['checking', 'done', 'stopped', 'failed']),
    startedAt: instant,
    endedAt: instant.nullable(),
    files: count,
    doneFiles: count,
    bytes: z.number().nonnegative(),
    doneBytes: z.number().nonnegative(),
    toGoMs: z.number().nonnegative().nullable().describe('At the speed so far; null while that says nothing'),
    counts: cardCounts.describe(
      '`safe`: original and a copy on another disk were read now, with the card’s bytes',
    ),
    mayBeWiped: z
      .boolean()
      .describe('Every file is safe, and the card was there to its end. Nothing is ever deleted from a card'),
    findings: z.array(finding).describe('About the card as a whole'),
    notSafe: z.array(cardFile).describe(`The first ${cardFilesNamedMax}, missing ones first`),
    passedOver: count.describe('Names that computers leave on cards, and links: not looked at'),
    copies: z.array(z.object({ folder: z.string(), files: count })).describe('Sound copies by second place'),
    takingIn: cardTakingIn.nullable(),
    byCommand: z.boolean().describe('Read by `setside card`, which told the station'),
    journalled: z.boolean().describe('The outcome is in the journal, where the strike check finds it'),
  })
  .meta({ id: 'CardCheck', description: 'A memory card held against what is here' });

export const cardFolder = z
  .object({
    folder: z.string(),
    why: z
      .enum(['removable', 'named', 'watched'])
      .describe('Found as a removable disk; named by --card; watched for a camera'),
    camera: z.string().nullable().describe('Whose folder it is, where it is watched'),
  })
  .meta({ id: 'CardFolder', description: 'A folder that may be checked as a card' });

export const cardDesk = z
  .object({
    folders: z.array(cardFolder),
    check: cardCheck.nullable().describe('The last one since the start'),
  })
  .meta({ id: 'CardDesk', description: 'What may be checked, and how the last check went' });

export const newCardCheck = z
  .object({ folder: z.string().min(1).max(4096).describe('On the station’s computer, from the root') })
  .strict()
  .meta({ id: 'NewCardCheck', description: 'A card to check' });

export const cardTakeIn = z
  .object({ camera: z.string().min(1).max(40).describe('Whose files they are') })
  .strict()
  .meta({ id: 'CardTakeIn', description: 'Takes in what the last check found missing' });

export const newCardOutcome = z
  .object({
    folder: z.string().min(1).max(4096).describe('Its real path'),
    startedAt: instant,
    endedAt: instant,
    files: count,
    bytes: count,
    counts: cardCounts,
    mayBeWiped: z.boolean(),
    findings: z.array(finding).max(cardFilesNamedMax),
    notSafe: z.array(cardFile).max(cardFilesNamedMax),
    passedOver: count,
    copies: z.array(z.object({ folder: z.string().max(4096), files: count })).max(100),
    lasts: z
      .array(
        z.object({
          camera: z.string().min(1).max(40),
          prefix: z.string().max(10),
          counter: z.number().int().min(0).max(9999),
        }),
      )
      .max(50)
      .describe('The last number of each camera on the card'),
    mark: z
      .string()
      .regex(/^[0-9a-f]{64}$/)
      .nullable()
      .describe('By what the card is known again, taken before it was read'),
  })
  .strict()
  .refine(({ files, counts: { safe, once, missing, unread } }) => files === safe + once + missing + unread, {
    error: 'every file is counted once',
  })
  .refine(({ mayBeWiped, files, counts: { safe } }) => !mayBeWiped || (files > 0 && safe === files), {
    error: 'a card may be wiped only where every file of it is safe',
  })
  .meta({ id: 'NewCardOutcome', description: 'What `setside card` found, told to the station' });

export type NewCardOutcome = z.infer<typeof newCardOutcome>;
export type CardFileTold = z.infer<typeof cardFile>;
export type CardTakingIn = z.infer<typeof cardTakingIn>;
export type CardCheck = z.infer<typeof cardCheck>;
export type CardFolder = z.infer<typeof cardFolder>;
export type CardDesk = z.infer<typeof cardDesk>;
