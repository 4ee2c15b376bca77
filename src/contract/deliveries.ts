import { z } from 'zod';
import { copySpaceSides, marks } from '../facts/index.ts';
import { frameId } from './fields.ts';
import { finding, instant, sha256Hex } from './primitives.ts';

/** Frames of one delivery: the chosen ones of a long week. */
const framesMax = 5000;

export const newDelivery = z
  .object({
    job: z.string().min(1).max(200).describe('Code of a job'),
    specification: z
      .union([z.string().trim().min(1).max(120), z.record(z.string(), z.unknown())])
      .describe(
        'Name of one of those that come with the station (`web-shop`, `print`, `social`, `banner`, `archive`), or a whole one, see docs/delivery.schema.json',
      ),
    frames: z
      .array(frameId)
      .min(1)
      .max(framesMax)
      .optional()
      .describe('Of the job; where they are left out, all whose mark the specification names'),
  })
  .extend({
    metadata: z
      .record(z.string(), z.unknown())
      .nullable()
      .optional()
      .describe('What is written into the files, see docs/metadata.schema.json; left out: what the job says'),
  })
  .strict()
  .meta({ id: 'NewDelivery', description: 'What is to be handed over' });

const told = {
  id: z.string().regex(/^[a-z0-9-]{1,64}$/),
  job: z.string(),
  title: z.string().describe('Of its specification'),
  specificationSha256: sha256Hex.describe('Of the whole specification (RFC 8785, SHA-256)'),
  folder: z.string().describe('Where its files are, on the station’s computer'),
  state: z
    .enum(['running', 'paused', 'aborted', 'done'])
    .describe('`paused`: by somebody, or because nothing can be written; it can go on'),
  startedAt: instant,
  endedAt: instant.nullable(),
  frames: z.number().int().describe('That are to be delivered'),
  filesMade: z.number().int(),
  filesMissing: z.number().int().describe('Frames of which no file could be made'),
  gapsLeft: z.boolean().describe('Somebody said that it stays without the files that are missing'),
  finding: finding.nullable().describe('Why it waits, or tries again'),
  destination: z
    .string()
    .nullable()
    .describe('Where its files are sent: name of a destination, or a folder; null: nowhere'),
  filesSent: z.number().int().describe('That are at the destination, and were compared there'),
  bytesSent: z.number().int().describe('Of all its files, with what has come so far of the one under way'),
  bytesToSend: z.number().int().describe('Of all its files that are made'),
};

export const deliveryState = z
  .object(told)
  .meta({ id: 'DeliveryState', description: 'How far a delivery is' });

export const deliveryList = z
  .object({ deliveries: z.array(deliveryState) })
  .meta({ id: 'DeliveryList', description: 'Deliveries of this station, the newest first' });

const numberOrNull = z.number().nullable();

/** A specification as it is told: every value of it. What one may say is `docs/delivery.schema.json`. */
export const specificationTold = z
  .looseObject({
    title: z.string(),
    description: z.string(),
    marks: z.array(z.enum(marks)),
    size: z.discriminatedUnion('kind', [
      z.object({ kind: z.literal('full') }),
      z.object({ kind: z.literal('long-edge'), px: z.number() }),
      z.object({ kind: z.literal('box'), widthPx: z.number(), heightPx: z.number() }),
      z.object({
        kind: z.literal('exact'),
        widthPx: z.number(),
        heightPx: z.number(),
        fillPercent: numberOrNull,
      }),
    ]),
    enlarge: z.boolean(),
    format: z.discriminatedUnion('kind', [
      z.object({
        kind: z.literal('jpeg'),
        quality: z.number(),
        bytesMax: numberOrNull,
        qualityMin: z.number(),
      }),
      z.object({ kind: z.literal('tiff'), depth: z.number(), compression: z.string() }),
      z.object({ kind: z.literal('png'), depth: z.number() }),
      z.object({ kind: z.literal('webp'), quality: z.number() }),
      z.object({ kind: z.literal('avif'), quality: z.number() }),
    ]),
    space: z.string(),
    profileVersion: z.number(),
    sharpening: z.object({ widthPx: z.number(), strength: z.number() }),
    pixelsPerInch: z.number().describe('How large it is printed unless somebody says otherwise'),
    background: z.discriminatedUnion('kind', [
      z.object({ kind: z.literal('as-photographed') }),
      z.object({ kind: z.literal('white'), leastCode: z.number(), extend: z.boolean() }),
    ]),
    copySpace: z
      .object({ side: z.enum(copySpaceSides), sharePercent: z.number() })
      .nullable()
      .describe('Kept free for words'),
    naming: z.string().describe('Empty: the job’s own, or the plain one'),
    metadata: z.object({ fields: z.array(z.string()), privateFields: z.array(z.string()) }),
    destination: z.looseObject({ kind: z.string() }),
  })
  .meta({ id: 'SpecificationTold', description: 'A delivery specification with every value of it' });

export const specificationList = z
  .object({
    specifications: z.array(
      z.object({
        name: z.string().describe('What `POST /api/v1/deliveries` takes it by'),
        specification: specificationTold,
      }),
    ),
  })
  .meta({ id: 'SpecificationList', description: 'Specifications that come with the station' });

export const deliveryPlan = z
  .object({
    title: z.string(),
    files: z.array(
      z.object({
        frame: z.string(),
        original: z.string().describe('Name of the frame'),
        file: z.string().describe('Name that it would get'),
        findings: z
          .array(finding)
          .describe('What can be said beforehand: too few pixels, not rendered, no picture'),
      }),
    ),
    example: z
      .object({
        frame: z.string().describe('The first of them'),
        words: z
          .array(z.object({ property: z.string(), text: z.string() }))
          .describe('What would stand in its file'),
        cut: z
          .array(z.object({ dataset: z.string(), text: z.string() }))
          .describe('What of it stands in fields of IPTC’s IIM that hold less'),
        privateFields: z.array(z.string()).describe('What of the original’s own notes goes along'),
      })
      .nullable(),
  })
  .meta({ id: 'DeliveryPlan', description: 'What a delivery would make, before anything is made' });

export const delivery = z
  .object({
    ...told,
    specification: specificationTold,
    files: z.array(
      z.object({
        file: z.string().describe('Its name in the folder'),
        frame: z.string(),
        original: z.string().describe('Name of the original'),
        sha256: sha256Hex,
        bytes: z.number().int(),
        widthPx: z.number().int(),
        heightPx: z.number().int(),
        findings: z.array(finding).describe('What is to be said of it'),
        sentTo: z.string().nullable().describe('Where it lies at the destination; null: it was not sent'),
      }),
    ),
    missing: z.array(z.object({ frame: z.string(), original: z.string(), finding })),
    notSent: z
      .array(z.object({ file: z.string(), finding }))
      .describe('Files that were made and could not be sent'),
  })
  .meta({
    id: 'Delivery',
    description: 'A delivery with its files; each was opened again after it was written',
  });

export const deliveryChange = z
  .object({
    state: z.enum(['running', 'paused', 'aborted']).optional(),
    gapsLeft: z
      .boolean()
      .optional()
      .describe('Nothing more is to be done about what is missing; false: it is'),
  })
  .strict()
  .refine(({ state, gapsLeft }) => state !== undefined || gapsLeft !== undefined, 'say state or gapsLeft')
  .meta({
    id: 'DeliveryChange',
    description:
      'Pauses a delivery, lets it go on, or ends it; what is made stays. One that is done and could not send every file goes on with those. Its gaps may be left as they are',
  });

export type NewDelivery = z.infer<typeof newDelivery>;
export type DeliveryState = z.infer<typeof deliveryState>;
export type Delivery = z.infer<typeof delivery>;
export type SpecificationTold = z.infer<typeof specificationTold>;
export type SpecificationList = z.infer<typeof specificationList>;
export type DeliveryPlan = z.infer<typeof deliveryPlan>;
export type DeliveryChange = z.infer<typeof deliveryChange>;
