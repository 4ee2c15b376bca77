import { z } from 'zod';
import { finding, instant } from './primitives.ts';

/** Findings about a bag that are named in an answer; more are counted. */
export const bagFindingsNamedMax = 100;

const count = z.number().int().nonnegative();

export const bagFinding = z
  .object({
    weight: z.enum(['bad', 'warning']).describe('`bad`: the bag is not valid; `warning`: it is'),
    finding,
  })
  .meta({ id: 'BagFinding', description: 'What was found in a bag' });

export const bagOutcome = z
  .object({
    valid: z
      .boolean()
      .describe('Everything listed is there, nothing else is, and every checksum was read and fits'),
    version: z.string().nullable().describe('Of BagIt, as the bag says'),
    files: count.describe('Of the payload'),
    bytes: z.number().nonnegative(),
    payloadOxum: z
      .string()
      .regex(/^\d+\.\d+$/)
      .describe('Bytes and files of the payload that was read, as RFC 8493, section 2.2.2, writes them'),
    originals: count.nullable().describe('Originals of the job; null where a bag was only checked'),
    unfinished: count
      .nullable()
      .describe(
        'Files of the job on the way or broken off, which are not in it; null where it was only checked',
      ),
    leftOut: z
      .array(finding)
      .default([])
      .describe('Deliveries of the job that are not in it, since they did not come to their end'),
    findings: z.array(bagFinding).describe(`The first ${bagFindingsNamedMax}, bad ones first`),
    more: count.describe('Findings that are not named'),
  })
  .meta({ id: 'BagOutcome', description: 'What a bag was after all of it was read' });

export const bagWork = z
  .object({
    id: z.string(),
    kind: z.enum(['make', 'check']),
    job: z.string().nullable().describe('Of which job it is made; null where it is only checked'),
    folder: z.string(),
    state: z.enum(['running', 'done', 'stopped', 'failed']),
    startedAt: instant,
    endedAt: instant.nullable(),
    phase: z
      .enum(['beginning', 'writing', 'reading'])
      .describe('One that is made is written, then read again'),
    doneBytes: z.number().nonnegative().describe('In this phase'),
    bytes: z.number().nonnegative().describe('In this phase'),
    toGoMs: z
      .number()
      .nonnegative()
      .nullable()
      .describe('For all that is left, at the speed so far; null while that says nothing'),
    waiting: z.boolean().describe('It rests while cameras or deliveries are at work'),
    outcome: bagOutcome.nullable(),
    failure: finding.nullable().describe('Why it could not be made or checked'),
  })
  .meta({ id: 'BagWork', description: 'A bag that is made or checked, or was last' });

export const bagPlace = z
  .object({
    folder: z.string(),
    why: z.enum(['removable', 'destination']).describe('A removable disk; a folder that is a destination'),
    mayMake: z.boolean().describe('false on a card of a camera: nothing is written there'),
  })
  .meta({ id: 'BagPlace', description: 'A folder below which bags may be made and checked' });

export const bagThere = z
  .object({
    folder: z.string(),
    state: z.enum(['whole', 'unfinished']).describe('`unfinished`: making it again goes on'),
  })
  .meta({ id: 'BagThere', description: 'A bag that lies in one of the places' });

export const bagDesk = z
  .object({
    places: z.array(bagPlace),
    bags: z.array(bagThere).describe('Those directly in the places, the first ones'),
    work: bagWork.nullable().describe('What goes on, or went on last'),
  })
  .meta({ id: 'BagDesk', description: 'Where bags may lie, and how the last one went' });

const folder = z
  .string()
  .min(1)
  .max(4096)
  .describe('On the station’s computer, from the root, below one of the places');

export const newBag = z
  .object({ job: z.string().min(1).max(200).describe('Code of a job'), folder })
  .strict()
  .meta({
    id: 'NewBag',
    description: 'A bag to be made: the folder is new, empty, or holds this bag unfinished',
  });

export const newBagCheck = z
  .object({ folder })
  .strict()
  .meta({ id: 'NewBagCheck', description: 'A bag to be checked: the folder that bagit.txt lies in' });

export type BagFindingTold = z.infer<typeof bagFinding>;
export type BagOutcome = z.infer<typeof bagOutcome>;
export type BagWork = z.infer<typeof bagWork>;
export type BagPlace = z.infer<typeof bagPlace>;
export type BagThere = z.infer<typeof bagThere>;
export type BagDesk = z.infer<typeof bagDesk>;
