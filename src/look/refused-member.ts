import type { z } from 'zod';
import type { Finding } from '../facts/index.ts';
import { parameters } from './parameters.ts';

/**
 * What the schema refuses of a document, as a finding. Codes `look.too-small`, `look.too-large` (with `min`, `max` and
 * `value` where a number is refused), `look.unknown-member` (with `likely`), `look.wrong-kind`, `look.unknown-choice`, those
 * that the schema names in its own refinements, and `look.bad-member` for the rest.
 */
export function refusedMember(issue: z.core.$ZodIssue, document: unknown): Finding {
  const member = issue.path.map(String).join('.') || 'look';
  const value = valueAt(document, issue.path);
  switch (issue.code) {
    case 'too_small':
      return {
        code: 'look.too-small',
        args: { member, min: Number(issue.minimum), ...rangeOf(issue, value) },
      };
    case 'too_big':
      return {
        code: 'look.too-large',
        args: { member, max: Number(issue.maximum), ...rangeOf(issue, value) },
      };
    case 'unrecognized_keys': {
      const likely = issue.keys.length === 1 ? likelyName(issue.keys[0] ?? '') : null;
      const names = issue.keys.slice(0, 5).join(', ');
      return {
        code: 'look.unknown-member',
        args: { member, names, ...(likely === null ? {} : { likely }) },
      };
    }
    case 'invalid_type':
      return { code: 'look.wrong-kind', args: { member, expected: issue.expected, found: kindOf(value) } };
    case 'invalid_value':
      return { code: 'look.unknown-choice', args: { member, choices: issue.values.map(String).join(', ') } };
    case 'invalid_union':
      return { code: 'look.unknown-choice', args: { member, choices: '' } };
    case 'custom': {
      const code: unknown = issue.params?.code;
      if (typeof code === 'string') return { code, args: { member } };
    }
  }
  return { code: 'look.bad-member', args: { member } };
}

function valueAt(document: unknown, path: readonly PropertyKey[]): unknown {
  let value = document;
  for (const key of path) {
    if (typeof value !== 'object' || value === null) return undefined;
    value = Reflect.get(value, key);
  }
  return value;
}

/** Both ends of a parameter, and what was written; nothing where it is a list that is too long or too short. */
function rangeOf(issue: z.core.$ZodIssue, value: unknown): Record<string, number> {
  const name = issue.path.filter((key) => typeof key === 'string').join('.');
  const known = Object.entries(parameters).find(([path]) => path === name)?.[1];
  return known === undefined || typeof value !== 'number' ? {} : { min: known.min, max: known.max, value };
}

function kindOf(value: unknown): string {
  if (value === undefined || value === null) return 'nothing';
  if (Array.isArray(value)) return 'list';
  return typeof value === 'number' && !Number.isFinite(value) ? 'endless' : typeof value;
}

const names: readonly string[] = [
  'version',
  'title',
  'description',
  'from',
  ...new Set(Object.keys(parameters).flatMap((path) => path.split('.'))),
];

/** The name of a member that a word is two letters off at the most; null where none is. */
function likelyName(word: string): string | null {
  const lowered = word.toLowerCase();
  const ranked = names
    .map((name) => ({ name, letters: lettersOff(lowered, name.toLowerCase()) }))
    .toSorted((one, other) => one.letters - other.letters);
  const [nearest] = ranked;
  return nearest !== undefined && nearest.letters <= Math.min(2, word.length / 3) ? nearest.name : null;
}

/** Letters to put in, take out or change to make one word the other (Levenshtein 1966). */
function lettersOff(one: string, other: string): number {
  let above = Array.from({ length: other.length + 1 }, (_, at) => at);
  for (let row = 1; row <= one.length; row++) {
    const line = [row];
    for (let at = 1; at <= other.length; at++) {
      const changed = (above[at - 1] ?? 0) + (one[row - 1] === other[at - 1] ? 0 : 1);
      line.push(Math.min(changed, (above[at] ?? 0) + 1, (line[at - 1] ?? 0) + 1));
    }
    above = line;
  }
  return above[other.length] ?? 0;
}
