import { z } from 'zod';
import { bagWork } from './bags.ts';
import { cardCheck } from './cards.ts';
import { clientScreen } from './client.ts';
import { deliveryState } from './deliveries.ts';
import { frame } from './frame.ts';
import { job } from './jobs.ts';
import { look } from './looks.ts';
import { paperUnderWay } from './papers.ts';
import { agreement } from './remarks.ts';
import { station } from './station.ts';
import { verification } from './verification.ts';

/**
 * Server-sent events of `GET /api/v1/events`. Each carries the whole frame as it is after the change, so that a page
 * that missed some is right again with the next one; `change` says what happened.
 */
export const arrivalEvent = z.object({
  type: z.literal('arrival'),
  change: z.enum([
    'started',
    'progress',
    'first-view',
    'whole',
    'unproved',
    'broken-off',
    'damaged',
    'let-go',
  ]),
  frame,
});

export const frameEvent = z.object({
  type: z.literal('frame'),
  change: z.enum([
    'kept',
    'read',
    'rendered',
    'judged',
    'marked',
    'moved',
    'renamed',
    'chosen',
    'slate',
    'remarked',
    'shared',
  ]),
  frame,
});

export const copyEvent = z.object({
  type: z.literal('copy'),
  change: z.enum(['copied', 'copy-lost']),
  frame,
});

export const lineEvent = z.object({
  type: z.literal('line'),
  station: station.describe('Without passwords: `GET /api/v1/station` has them'),
});

/** A job as it is after a change; null in its place where it was taken back. */
export const jobEvent = z.object({
  type: z.literal('job'),
  code: z.string(),
  job: job.nullable(),
});

/** Told to guests in place of a job: who agreed to what of the shots that are shared with them. */
export const agreementsEvent = z.object({
  type: z.literal('agreements'),
  code: z.string(),
  agreements: z.array(agreement),
});

/** What the client of a job is shown from now on. Not told to guests: they see what is marked, each for themselves. */
export const clientEvent = z.object({ type: z.literal('client'), screen: clientScreen });

/** A look was saved, laid aside or put back. Told to operators only. */
export const lookEvent = z.object({
  type: z.literal('look'),
  change: z.enum(['saved', 'laid-aside', 'put-back']),
  look,
});

/** How far a delivery is, after each of its files. Told to operators only. */
export const deliveryEvent = z.object({ type: z.literal('delivery'), delivery: deliveryState });

/** Which contact sheets of a job are being drawn, and how far; none once all have ended. Told to operators only. */
export const papersEvent = z.object({
  type: z.literal('papers'),
  job: z.string(),
  contactSheets: z.array(paperUnderWay),
});

/** How far the check of a card is. Told to the operator on the station's own computer only. */
export const cardEvent = z.object({ type: z.literal('card'), check: cardCheck });

/** How far a bag is. Told to the operator on the station's own computer only. */
export const bagEvent = z.object({ type: z.literal('bag'), work: bagWork });

/** How far the reading of originals and copies is. Told to operators only. */
export const verificationEvent = z.object({ type: z.literal('verification'), verification });

/** The gap since `Last-Event-ID` is longer than the station remembers: load everything again. */
export const resyncEvent = z.object({ type: z.literal('resync') });

/** The link by which this was heard has ended: nothing more comes, and the device is shut out. */
export const shutOutEvent = z.object({ type: z.literal('shut-out') });

export const stationEvent = z
  .discriminatedUnion('type', [
    arrivalEvent,
    frameEvent,
    copyEvent,
    lineEvent,
    jobEvent,
    agreementsEvent,
    clientEvent,
    lookEvent,
    deliveryEvent,
    papersEvent,
    cardEvent,
    bagEvent,
    verificationEvent,
    resyncEvent,
    shutOutEvent,
  ])
  .meta({ id: 'StationEvent', description: 'The data of one event' });

export type CopyEvent = z.infer<typeof copyEvent>;
export type ArrivalEvent = z.infer<typeof arrivalEvent>;
export type FrameEvent = z.infer<typeof frameEvent>;
export type StationEvent = z.infer<typeof stationEvent>;
