import type { Finding } from '../facts/index.ts';
import { type PictureWords, tagsOfWords } from '../metadata/index.ts';
import type { MetadataSheet } from './metadata-sheet.ts';
import type { Specification } from './specification.ts';
import { hasWords } from './words-of-frame.ts';

/** One property as it will stand in a file. */
export interface SaidWord {
  readonly property: keyof PictureWords;
  readonly text: string;
}

/** What is said, in the order of {@link PictureWords}; lists parted by semicolons, parts of a place by commas. */
export function saidWords(words: PictureWords): readonly SaidWord[] {
  const properties = Object.keys(words) as (keyof PictureWords)[];
  return properties
    .map((property) => ({ property, text: textOf(words[property]) }))
    .filter(({ text }) => text !== '');
}

type Said = string | object | readonly (string | object)[];

function textOf(said: Said): string {
  if (typeof said === 'string') return said;
  if (Array.isArray(said)) return said.map(textOf).join('; ');
  return Object.values(said)
    .filter((text) => text !== '')
    .join(', ');
}

/** A field of IIM that holds less than was said, with what stands there. */
export interface CutWord {
  readonly dataset: string;
  readonly text: string;
}

/** What is cut in IIM; nothing where the format has no place for it. */
export function cutWords(words: PictureWords, format: Specification['format']): readonly CutWord[] {
  const { tags, cut } = tagsOfWords(words, holdsIim(format));
  return cut.map((dataset) => ({ dataset, text: textOf(tags.get(`IPTC:${dataset}`) ?? '') }));
}

/** JPEG and TIFF have a place for IIM. */
export function holdsIim({ kind }: Specification['format']): boolean {
  return kind === 'jpeg' || kind === 'tiff';
}

/** What has to be said of words that go into a file of this format. */
export function findingsOfWords(words: PictureWords, format: Specification['format']): readonly Finding[] {
  if (!hasWords(words)) return [];
  if (!holdsIim(format)) return [{ code: 'deliver.no-iim', args: { format: format.kind } }];
  const names = cutWords(words, format).map(({ dataset }) => dataset);
  return names.length === 0 ? [] : [{ code: 'deliver.iim-cut', args: { names: names.join(', ') } }];
}

/** The specification with what the sheet has go along too. */
export function withPrivateFields(specification: Specification, sheet: MetadataSheet | null): Specification {
  const more = sheet?.privateFields ?? [];
  if (more.length === 0) return specification;
  const { metadata } = specification;
  const privateFields = [...new Set([...metadata.privateFields, ...more])];
  return { ...specification, metadata: { ...metadata, privateFields } };
}
