import type { Finding } from '../facts/index.ts';
import { findingsOf } from './findings-of.ts';
import { specificationTextMax } from './limits.ts';
import { type Specification, specificationSchema } from './specification.ts';

/** What reading a document gives: a whole specification, or what is wrong with it, codes `deliver.*`. */
export type ReadSpecification =
  | { readonly specification: Specification }
  | { readonly specification: null; readonly findings: readonly Finding[] };

/** Reads the text of a specification. */
export function readSpecificationText(text: string): ReadSpecification {
  if (text.length > specificationTextMax) {
    return refused('deliver.too-long', { charactersMax: specificationTextMax });
  }
  try {
    return readSpecification(JSON.parse(text));
  } catch {
    return refused('deliver.no-json', {});
  }
}

/** Reads a specification out of any value. */
export function readSpecification(document: unknown): ReadSpecification {
  const parsed = specificationSchema.safeParse(document);
  if (parsed.success) return { specification: parsed.data };
  return { specification: null, findings: findingsOf(parsed.error) };
}

function refused(code: string, args: Finding['args']): ReadSpecification {
  return { specification: null, findings: [{ code, args }] };
}
