import { z } from 'zod';
import { rgbSpaceNames } from '../colour/index.ts';
import { copySpaceSides, marks } from '../facts/index.ts';
import { bytesMaxMax, bytesMaxMin, edgePxMax, edgePxMin } from './limits.ts';
import { placeholdersOf } from './name-template.ts';

const edge = z.number().int().min(edgePxMin).max(edgePxMax);
const quality = z.number().int().min(1).max(100);

const sizeSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('full') }).describe('Every pixel there is'),
  z.strictObject({ kind: z.literal('long-edge'), px: edge }).describe('The longer edge has so many pixels'),
  z
    .strictObject({ kind: z.literal('box'), widthPx: edge, heightPx: edge })
    .describe('As large as fits into the box; the shape of the picture stays'),
  z
    .strictObject({
      kind: z.literal('exact'),
      widthPx: edge,
      heightPx: edge,
      fillPercent: z
        .number()
        .min(10)
        .max(100)
        .nullable()
        .default(null)
        .describe(
          'Share of the frame that the subject fills in the tighter direction; null: the whole picture is cut to shape',
        ),
    })
    .describe('Exactly this size'),
]);

const formatSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('jpeg'),
    quality: quality.describe('The most that is tried'),
    bytesMax: z
      .number()
      .int()
      .min(bytesMaxMin)
      .max(bytesMaxMax)
      .nullable()
      .default(null)
      .describe('Quality gives way until the file has no more bytes; null: as large as it becomes'),
    qualityMin: quality
      .default(50)
      .describe('Where that ends; a file that is still larger is told, not written'),
  }),
  z.strictObject({
    kind: z.literal('tiff'),
    depth: z.union([z.literal(8), z.literal(16)]),
    compression: z.enum(['none', 'lzw', 'deflate']),
  }),
  z.strictObject({ kind: z.literal('png'), depth: z.union([z.literal(8), z.literal(16)]) }),
  z.strictObject({ kind: z.literal('webp'), quality }),
  z.strictObject({ kind: z.literal('avif'), quality }),
]);

const backgroundSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('as-photographed') }),
  z
    .strictObject({
      kind: z.literal('white'),
      leastCode: z
        .number()
        .int()
        .min(200)
        .max(255)
        .describe('What each channel of the picture’s border has at least, of 255; checked in the file'),
      darkPercentMax: z
        .number()
        .min(0)
        .max(100)
        .default(0)
        .describe('Share of the border, %, that may be darker than that'),
      extend: z
        .boolean()
        .describe(
          'Whether the backdrop goes on, in its own tone, around a picture that does not fill its frame; only over sides where it is plain',
        ),
    })
    .describe('A white backdrop'),
]);

/** Properties of the IPTC Photo Metadata Standard that a delivery may carry, by plain names. */
export const metadataFields = [
  'title',
  'headline',
  'caption',
  'keywords',
  'creator',
  'credit',
  'copyright',
  'usage-terms',
  'contact',
  'location',
  'persons',
  'alt-text',
  'digital-source-type',
  'instructions',
  'job-id',
  'date-created',
] as const;
export type MetadataField = (typeof metadataFields)[number];

/** What is not handed over by itself. */
export const privateFields = ['serial-numbers', 'position', 'capture-settings', 'words-of-original'] as const;
export type PrivateField = (typeof privateFields)[number];

const copySpaceSchema = z
  .strictObject({
    side: z.enum(copySpaceSides),
    sharePercent: z
      .number()
      .min(5)
      .max(80)
      .describe('Of the delivered picture’s height for top and bottom, else of its width'),
  })
  .describe(
    'The part of the delivered picture that is kept free for words; drawn on the set, written into no file',
  );

const metadataSchema = z.strictObject({
  fields: distinct(z.enum(metadataFields)).describe('What is written where somebody said it'),
  privateFields: distinct(z.enum(privateFields))
    .default([])
    .describe(
      'What is left out unless it is named here: what the camera noted, and what the original says of itself in fields of IPTC',
    ),
});

const destinationSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('job') }).describe('The folder deliveries/ of the job'),
  z
    .strictObject({
      kind: z.literal('folder'),
      path: z.string().trim().min(1).max(1000).describe('From the root of the station’s computer'),
    })
    .describe('A folder elsewhere, such as a disk of the client'),
  z
    .strictObject({
      kind: z.literal('named'),
      name: z.string().regex(/^[a-z0-9][a-z0-9-]{0,39}$/),
    })
    .describe('One of the station’s destinations, by its name'),
]);

const noSharpening = { widthPx: 0.6, strength: 0 };

/** What is handed over and how: a document, version 1. A parsed one has every member. */
export const specificationSchema = z
  .strictObject({
    version: z.literal(1),
    title: z.string().trim().min(1).max(80),
    description: z.string().trim().max(400).default(''),
    marks: distinct(z.enum(marks)).min(1).default(['hero']).describe('Frames with one of these marks'),
    size: sizeSchema,
    enlarge: z
      .boolean()
      .default(false)
      .describe('Whether a picture with too few pixels is enlarged; where it is, that is said of each file'),
    format: formatSchema,
    space: z.enum(rgbSpaceNames).default('srgb').describe('Colour space of the file'),
    profileVersion: z
      .union([z.literal(2), z.literal(4)])
      .default(4)
      .describe('Of the ICC profile inside the file, which is always there'),
    sharpening: z
      .strictObject({
        widthPx: z
          .number()
          .min(0.3)
          .max(5)
          .describe('Of the Gaussian that is told from the picture, its sigma'),
        strength: z.number().min(0).max(3).describe('0: none'),
      })
      .default(noSharpening)
      .describe('Acutance for the delivered size, after resampling'),
    pixelsPerInch: z
      .number()
      .int()
      .min(1)
      .max(4800)
      .default(72)
      .describe('How large it is printed unless somebody says otherwise; written into JPEG, TIFF and PNG'),
    background: backgroundSchema.default({ kind: 'as-photographed' }),
    copySpace: copySpaceSchema.nullable().default(null),
    naming: z
      .string()
      .trim()
      .max(200)
      .default('')
      .refine((template) => template === '' || placeholdersOf(template).unknown.length === 0, {
        error: 'names are made of {job}, {shot}, {counter}, {camera}, {date}, {name} and {number}',
      })
      .refine((template) => !/[\\/]|\p{Cc}/u.test(template), { error: 'a name holds no slash' })
      .describe('Template of the names without their ending; empty: the job’s own'),
    metadata: metadataSchema.default({ fields: [...metadataFields], privateFields: [] }),
    destination: destinationSchema.default({ kind: 'job' }),
  })
  .refine(({ format }) => format.kind !== 'jpeg' || format.qualityMin <= format.quality, {
    error: 'qualityMin must not be above quality',
    path: ['format', 'qualityMin'],
  });

export type Specification = z.infer<typeof specificationSchema>;
export type DeliverySize = Specification['size'];

/** A list that says each thing once. */
function distinct<Item extends z.ZodType>(item: Item): z.ZodArray<Item> {
  return z
    .array(item)
    .refine((list) => new Set(list).size === list.length, { error: 'each may be named once' });
}
