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
      if (issue.origin === 'string' || issue.origin === 'array')
        return { code: 'deliver.too-short', args: { member, min: Number(issue.minimum) } };
      return { code: 'deliver.too-small', args: { member, min: Number(issue.minimum) } };
    case 'too_big':
      return { code: 'deliver.too-large', args: { member, max: Number(issue.maximum) } };
    case 'unrecognized_keys':
      return { code: 'deliver.unknown-member', args: { member, names: issue.keys.slice(0, 5).join(', ') } };
    case 'invalid_type':
      return { code: 'deliver.wrong-kind', args: { member, expected: issue.expected } };
    case 'invalid_value':
      return notOneOf(member, issue.values);
    case 'invalid_union':
      return notOneOf(member, 'options' in issue && Array.isArray(issue.options) ? issue.options : []);
    case 'invalid_format':
      // A text of our own, or what the library says by itself, which is not for people.
      return issue.message.startsWith('Invalid')
        ? { code: 'deliver.wrong-form', args: { member, format: issue.format } }
        : { code: 'deliver.bad-member', args: { member, problem: issue.message } };
    default:
      return { code: 'deliver.bad-member', args: { member, problem: issue.message } };
  }
}

/** What may stand there; a long list is named in the schema. */
function notOneOf(member: string, values: readonly unknown[]): Finding {
  const named = values.length > namedMax ? '' : values.map(String).join(', ');
  return { code: 'deliver.not-one-of', args: { member, values: named } };
}

const namedMax = 8;
