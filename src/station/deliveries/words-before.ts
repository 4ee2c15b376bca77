import type { DeliveryPlan } from '../../contract/index.ts';
import {
  cutWords,
  findingsOfWords,
  type MetadataSheet,
  type Specification,
  saidWords,
  withPrivateFields,
  wordsOfFrame,
} from '../../deliver/index.ts';
import type { Finding } from '../../facts/index.ts';
import { noPictureWords, type PictureWords } from '../../metadata/index.ts';
import type { OrderedFrame } from './delivery-log.ts';

/** What would be written into a frame's file, and what has to be said of it, before the file is made. */
export function wordsBefore(
  { known }: OrderedFrame,
  { metadata, format }: Specification,
  sheet: MetadataSheet | null,
): { readonly words: PictureWords; readonly findings: readonly Finding[] } {
  if (sheet === null || known === null) return { words: noPictureWords, findings: [] };
  const { words, findings } = wordsOfFrame(sheet, known, metadata.fields);
  return { words, findings: [...findings, ...findingsOfWords(words, format)] };
}

/** The words of one frame, spelled out; null where there is none. */
export function exampleOf(
  ordered: OrderedFrame | undefined,
  specification: Specification,
  sheet: MetadataSheet | null,
): DeliveryPlan['example'] {
  if (ordered === undefined) return null;
  const { words } = wordsBefore(ordered, specification, sheet);
  return {
    frame: ordered.frame,
    words: saidWords(words).map((each) => ({ ...each })),
    cut: cutWords(words, specification.format).map((each) => ({ ...each })),
    privateFields: [...withPrivateFields(specification, sheet).metadata.privateFields],
  };
}
