import type { Finding } from '../facts/index.ts';
import {
  noContact,
  noPictureWords,
  nowhere,
  type PictureWords,
  type WrittenPlace,
} from '../metadata/index.ts';
import type { MetadataSheet, SheetWords, WordField } from './metadata-sheet.ts';
import type { MetadataField } from './specification.ts';

/** What is known of a frame; null where nobody knows it. */
export interface WordsFrame {
  readonly id: string;
  /** Name of its shot. */
  readonly shot: string | null;
  readonly values: Readonly<Record<WordField, string | null>>;
  /** When the shutter went off, local, `YYYY-MM-DDThh:mm:ss±hh:mm`; null where that is not known. */
  readonly createdAt: string | null;
}

/**
 * What is written into a frame's picture: what is said of the frame goes before what is said of its shot, and that before what is
 * said of all; keywords are added up. Only what the specification's `fields` name. A field in braces that nobody knows is left
 * out with what parts it from the text before, and said; copyright, usage terms and credit are then left out whole.
 */
export function wordsOfFrame(
  { all, shots, frames }: MetadataSheet,
  frame: WordsFrame,
  fields: readonly MetadataField[],
): { readonly words: PictureWords; readonly findings: readonly Finding[] } {
  const ofShot = frame.shot === null ? undefined : shots[frame.shot];
  const parts: readonly SheetWords[] = [all, ofShot ?? {}, frames[frame.id] ?? {}];
  /** Names that nobody knows, and the rights that each of them left out. */
  const unknown = new Map<string, Set<MetadataField>>();
  const miss = (name: string): Set<MetadataField> => {
    const rights = unknown.get(name) ?? new Set();
    unknown.set(name, rights);
    return rights;
  };
  const fill = (template: string): string => filled(template, frame.values, miss);
  // A right with a hole in it says something else.
  const fillWhole = (right: MetadataField, template: string): string => {
    let isWhole = true;
    const text = filled(template, frame.values, (name) => {
      isWhole = false;
      miss(name).add(right);
    });
    return isWhole ? text : '';
  };
  const merged: SheetWords = Object.assign({}, ...parts);
  const keywords = parts.flatMap((part) => part.keywords ?? []);
  const wanted = (field: MetadataField): boolean => fields.includes(field);
  const words: PictureWords = {
    ...noPictureWords,
    ...(wanted('title') && { title: fill(merged.title ?? '') }),
    ...(wanted('headline') && { headline: fill(merged.headline ?? '') }),
    ...(wanted('caption') && {
      caption: fill(merged.caption ?? ''),
      captionWriter: fill(merged.captionWriter ?? ''),
    }),
    ...(wanted('keywords') && { keywords: each(keywords, fill) }),
    ...(wanted('creator') && {
      creators: each(merged.creators, fill),
      creatorTitle: fill(merged.creatorTitle ?? ''),
    }),
    ...(wanted('credit') && {
      credit: fillWhole('credit', merged.credit ?? ''),
      source: fill(merged.source ?? ''),
    }),
    ...(wanted('copyright') && {
      copyright: fillWhole('copyright', merged.copyright ?? ''),
      rightsPage: merged.rightsPage ?? '',
    }),
    ...(wanted('usage-terms') && { usageTerms: fillWhole('usage-terms', merged.usageTerms ?? '') }),
    ...(wanted('contact') && { contact: { ...noContact, ...withoutUndefined(merged.contact) } }),
    ...(wanted('location') && {
      placeCreated: placeOf(merged.placeCreated, fill),
      placesShown: (merged.placesShown ?? []).map((place) => placeOf(place, fill)),
    }),
    ...(wanted('persons') && { persons: each(merged.persons, fill) }),
    ...(wanted('alt-text') && {
      altText: fill(merged.altText ?? ''),
      extendedDescription: fill(merged.extendedDescription ?? ''),
    }),
    ...(wanted('digital-source-type') && { digitalSourceType: merged.digitalSourceType ?? '' }),
    ...(wanted('instructions') && { instructions: fill(merged.instructions ?? '') }),
    ...(wanted('job-id') && { jobId: fill(merged.jobId ?? '') }),
    ...(wanted('date-created') && { createdAt: frame.createdAt ?? '' }),
  };
  // One for each name: files that lack the same have the same said of them.
  const findings = [...unknown]
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .map(([names, rights]) => ({
      code: 'deliver.words-unknown',
      args: { names, rights: [...rights].join(', ') },
    }));
  return { words, findings };
}

/** Whether anything at all is said. */
export function hasWords(words: PictureWords): boolean {
  return JSON.stringify(words) !== JSON.stringify(noPictureWords);
}

function filled(template: string, values: WordsFrame['values'], miss: (name: string) => void): string {
  return template
    .replace(/([-–,;:/ ]*)\{([^{}]*)\}/g, (_, before: string, name: string) => {
      // The schema lets no other name through.
      const value = values[name as WordField]?.trim() ?? '';
      if (value !== '') return before + value;
      miss(`{${name}}`);
      return '';
    })
    .replace(/^[-–,;:/ ]+/, '')
    .trim();
}

function each(texts: readonly string[] | undefined, fill: (text: string) => string): readonly string[] {
  return [...new Set((texts ?? []).map(fill))].filter((text) => text !== '');
}

function placeOf(
  place: { readonly [Part in keyof WrittenPlace]?: string | undefined } | undefined,
  fill: (text: string) => string,
): WrittenPlace {
  const { sublocation = '', city = '', province = '', country = '', countryCode = '' } = place ?? {};
  return {
    ...nowhere,
    sublocation: fill(sublocation),
    city: fill(city),
    province: fill(province),
    country: fill(country),
    countryCode,
  };
}

function withoutUndefined(contact: SheetWords['contact']): Partial<Record<keyof typeof noContact, string>> {
  return Object.fromEntries(Object.entries(contact ?? {}).filter(([, text]) => text !== undefined));
}
