import { z } from 'zod';
import type { Finding } from '../facts/index.ts';
import { digitalSourceTypes } from '../metadata/index.ts';
import { findingsOf } from './findings-of.ts';
import { specificationTextMax } from './limits.ts';
import { privateFields } from './specification.ts';

/** What a text of a sheet may hold in braces. */
export const wordFields = [
  'client',
  'job',
  'title',
  'place',
  'shot',
  'description',
  'name',
  'date',
  'year',
] as const;
export type WordField = (typeof wordFields)[number];

/** Shots, or frames, that one sheet speaks of. */
const partsMax = 500;

function text(charactersMax: number, lines: boolean, isTemplate: boolean): z.ZodType<string, string> {
  const control = lines ? /[^\P{Cc}\n]/u : /\p{Cc}/u;
  const plain = z
    .string()
    .trim()
    .max(charactersMax)
    .refine((value) => !control.test(value) && !/\p{Cs}/u.test(value), {
      error: lines ? 'no control characters but line breaks' : 'one line of text, without control characters',
    });
  if (!isTemplate) return plain;
  return plain.refine((value) => unknownFields(value).length === 0, {
    error: `in braces there can be {${wordFields.join('}, {')}}`,
  });
}

const line = text(250, false, true);
const long = text(5000, true, true);
const fixed = text(250, false, false);
const address = z.url({ protocol: /^https?$/ }).max(500);
const list = (most: number): z.ZodArray<typeof line> => z.array(line).max(most);

const place = z
  .strictObject({
    sublocation: line.optional(),
    city: line.optional(),
    province: line.optional(),
    country: line.optional(),
    countryCode: z
      .string()
      .regex(/^[A-Z]{2,3}$/, { error: 'two or three capitals, ISO 3166-1' })
      .optional(),
  })
  .describe('A place after the IPTC structure Location');

const contact = z.strictObject({
  address: fixed.optional(),
  city: fixed.optional(),
  province: fixed.optional(),
  postcode: fixed.optional(),
  country: fixed.optional(),
  email: fixed.optional(),
  phone: fixed.optional(),
  website: address.optional(),
});

const words = z.strictObject({
  title: line.optional().describe('A short name of the picture'),
  headline: line.optional().describe('What it says, in one line'),
  caption: long.optional().describe('Description: who, what, where, when'),
  captionWriter: line.optional(),
  keywords: list(100).optional().describe('Those of the job, the shot and the frame are all written'),
  creators: list(20).optional(),
  creatorTitle: line.optional().describe('Creator’s job title'),
  credit: line.optional().describe('Credit line'),
  source: line.optional(),
  copyright: line.optional().describe('Copyright notice'),
  usageTerms: long.optional().describe('Rights usage terms'),
  rightsPage: address.optional().describe('Web statement of rights'),
  contact: contact.optional(),
  placeCreated: place.optional().describe('Where the camera stood'),
  placesShown: z.array(place).max(20).optional().describe('What is to be seen'),
  persons: list(100).optional().describe('Names of persons shown'),
  altText: text(250, false, true).optional().describe('For those who cannot see the picture'),
  extendedDescription: long.optional(),
  digitalSourceType: z.enum(digitalSourceTypes).optional().describe('Of the IPTC NewsCodes'),
  instructions: text(2000, true, true).optional(),
  jobId: line.optional().describe('The client’s own number of the job'),
});
export type SheetWords = z.infer<typeof words>;

/** What is said of a job's pictures when they are handed over: a document, version 1. */
export const metadataSheetSchema = z.strictObject({
  version: z.literal(1),
  title: z.string().trim().min(1).max(80).describe('Whose it is: a client, a kind of work'),
  all: words.default({}).describe('Of every picture'),
  shots: z
    .record(z.string().min(1).max(120), words)
    .default({})
    .refine((parts) => Object.keys(parts).length <= partsMax, { error: `at most ${partsMax} shots` })
    .describe('By the names of shots; goes before what is said of all'),
  frames: z
    .record(z.string().min(1).max(120), words)
    .default({})
    .refine((parts) => Object.keys(parts).length <= partsMax, { error: `at most ${partsMax} frames` })
    .describe('By ids of frames; goes before what is said of their shot'),
  privateFields: z
    .array(z.enum(privateFields))
    .max(privateFields.length)
    .optional()
    .describe('What goes along beside what the specification names; left out: nothing more'),
});
export type MetadataSheet = z.infer<typeof metadataSheetSchema>;

export type ReadSheet =
  | { readonly sheet: MetadataSheet }
  | { readonly sheet: null; readonly findings: readonly Finding[] };

/** Reads the text of a sheet; what is wrong with it by codes `deliver.*`. */
export function readMetadataSheetText(source: string): ReadSheet {
  if (source.length > specificationTextMax)
    return refused('deliver.too-long', { charactersMax: specificationTextMax });
  try {
    return readMetadataSheet(JSON.parse(source));
  } catch {
    return refused('deliver.no-json', {});
  }
}

/** Reads a sheet out of any value. */
export function readMetadataSheet(document: unknown): ReadSheet {
  const parsed = metadataSheetSchema.safeParse(document);
  return parsed.success ? { sheet: parsed.data } : { sheet: null, findings: findingsOf(parsed.error) };
}

function refused(code: string, args: Finding['args']): ReadSheet {
  return { sheet: null, findings: [{ code, args }] };
}

/** What stands in braces and is no {@link WordField}. */
function unknownFields(template: string): readonly string[] {
  return [...template.matchAll(/\{([^{}]*)\}/g)]
    .map(([, name = '']) => name)
    .filter((name) => !wordFields.some((each) => each === name));
}
