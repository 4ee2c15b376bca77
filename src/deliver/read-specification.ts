import type { z } from 'zod';
import type { Finding } from '../facts/index.ts';
import { findingsMax, specificationTextMax } from './limits.ts';
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
  return { specification: null, findings: parsed.error.issues.slice(0, findingsMax).map(findingOf) };
}

function refused(code: string, args: Finding['args']): ReadSpecification {
  return { specification: null, findings: [{ code, args }] };
}

function findingOf(issue: z.core.$ZodIssue): Finding {
  const member = issue.path.map(String).join('.') || 'the specification';
  switch (issue.code) {
    case 'too_small':
      return { code: 'deliver.too-small', args: { member, min: Number(issue.minimum) } };
    case 'too_big':
      return { code: 'deliver.too-large', args: { member, max: Number(issue.maximum) } };
    case 'unrecognized_keys':
      return { code: 'deliver.unknown-member', args: { member, names: issue.keys.slice(0, 5).join(', ') } };
    default:
      return { code: 'deliver.bad-member', args: { member, problem: issue.message } };
  }
}
