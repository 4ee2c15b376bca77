import { z } from 'zod';
import { finding, instant } from './primitives.ts';
import { jobSummary } from './station.ts';

/** What somebody with a link may do; each may do what those before it may. */
export const linkScopes = ['guest', 'pocket', 'operator'] as const;

/** A link ends by itself: a month is longer than any job stands. */
export const linkMinutesMax: number = 31 * 24 * 60;

const share = z
  .object({
    job: z.string().min(1).max(200).describe('Code of the job whose pictures are shown'),
    shots: z
      .array(z.string().min(1).max(200))
      .max(500)
      .describe('Only pictures of these shots; empty for the whole job'),
  })
  .strict();

const linkName = z.string().trim().min(1).max(60).describe('Whom or what it is for, for the eye');

export const link = z
  .object({
    id: z.string(),
    scope: z.enum(linkScopes),
    name: z.string(),
    share: share.nullable().describe('What a guest sees; null for the others'),
    made: instant,
    ends: instant,
    devices: z.number().int().nonnegative().describe('Browsers that came in by it and are still known'),
    lastSeen: instant.nullable().describe('When one of them last asked for something, since the start'),
  })
  .meta({ id: 'Link', description: 'Somebody who may look in from another device' });

export const linkDoor = z
  .object({
    port: z.number().int().nullable().describe('null while no link is there, or the port cannot be opened'),
    trouble: finding.nullable(),
  })
  .meta({ id: 'LinkDoor', description: 'The port that other devices come in by' });

export const linkList = z
  .object({ links: z.array(link), door: linkDoor })
  .meta({ id: 'LinkList', description: 'Every link that has not ended, the newest first' });

export const newLink = z
  .object({
    scope: z.enum(linkScopes),
    name: linkName,
    share: share.describe('Wanted for a guest, and only there'),
    minutes: z
      .number()
      .int()
      .min(1)
      .max(linkMinutesMax)
      .describe('After so many minutes it ends by itself; 12 hours where it is left out'),
  })
  .partial({ share: true, minutes: true })
  .strict()
  .meta({ id: 'NewLink', description: 'A link to be made' });

export const madeLink = z
  .object({
    link,
    addresses: z
      .array(z.object({ url: z.string(), encrypted: z.boolean() }))
      .describe('Where it leads, the best first; each holds the secret, which is told this once'),
    door: linkDoor,
  })
  .meta({ id: 'MadeLink', description: 'A new link with the addresses to give away' });

/** Room for the longest token and what a person types beside it. */
export const enterLink = z
  .object({ token: z.string().min(1).max(100).describe('What stands behind the # of the address') })
  .strict()
  .meta({ id: 'EnterLink', description: 'The secret of a link, exchanged for a cookie' });

export const visitor = z
  .object({
    scope: z.enum(linkScopes),
    name: z.string(),
    ends: instant.nullable().describe('null on the computer of the station'),
    encrypted: z.boolean().describe('Whether nobody on the network can read along'),
    certificate: z.boolean().describe('Whether the station has a root certificate to import'),
    job: jobSummary.nullable().describe('What a guest was shown the way to'),
  })
  .meta({ id: 'Visitor', description: 'Who is asking, and what for' });

export type LinkScope = (typeof linkScopes)[number];
export type Link = z.infer<typeof link>;
export type LinkDoor = z.infer<typeof linkDoor>;
export type LinkList = z.infer<typeof linkList>;
export type NewLink = z.infer<typeof newLink>;
export type MadeLink = z.infer<typeof madeLink>;
export type Visitor = z.infer<typeof visitor>;
