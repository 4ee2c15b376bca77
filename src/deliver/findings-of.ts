import type { z } from 'zod';
import type { Finding } from '../facts/index.ts';
import { findingsMax } from './limits.ts';

/** What is wrong with a document, by codes `deliver.*`. */
export function findingsOf({ issues }: z.ZodError): readonly Finding[] {
  return issues.slice(0, findingsMax).map(findingOf);
}

function findingOf(issue: z.core.$ZodIssue): Finding {
  const member = issue.path.map(String).join('.') || 'the document';
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
