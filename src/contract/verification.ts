import { z } from 'zod';
import { instant } from './primitives.ts';

const count = z.number().int().nonnegative();

export const placeVerified = z
  .object({
    folder: z.string(),
    files: count,
    bad: count.describe('Copies that are not as they were made'),
    wasRead: z.boolean().describe('false where the place was away'),
  })
  .meta({ id: 'PlaceVerified', description: 'What a reading found in a second place' });

export const verification = z
  .object({
    everyDays: count.describe('Each so many days all is read again; 0: only when somebody asks'),
    dueAt: instant.nullable().describe('When the next reading begins by itself'),
    running: z
      .object({
        startedAt: instant,
        files: count,
        doneFiles: count,
        bytes: z.number().nonnegative(),
        doneBytes: z.number().nonnegative(),
        bad: count.describe('Originals and copies found bad so far'),
        pace: z.enum(['slow', 'full']).describe('`slow`: by itself, behind everything else'),
        waiting: z.boolean().describe('It rests, because cameras or deliveries are at work'),
        toGoMs: z.number().nonnegative().nullable(),
      })
      .nullable(),
    last: z
      .object({
        startedAt: instant,
        endedAt: instant,
        files: count,
        bytes: z.number().nonnegative(),
        badOriginals: count,
        places: z.array(placeVerified),
      })
      .nullable()
      .describe('The last reading that came to its end, by the station or by setside verify'),
  })
  .meta({ id: 'Verification', description: 'Reading every original and every copy again' });

export const verificationWish = z
  .object({ state: z.enum(['running', 'stopped']) })
  .strict()
  .meta({
    id: 'VerificationWish',
    description: 'Reads all now, at full pace; or lets it rest until it is due',
  });

export type Verification = z.infer<typeof verification>;
export type PlaceVerified = z.infer<typeof placeVerified>;
