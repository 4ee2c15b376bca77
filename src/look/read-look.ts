import type { Finding } from '../facts/index.ts';
import { currentVersion, liftLook } from './lift.ts';
import { refusedMember } from './refused-member.ts';
import { type Look, lookSchema } from './schema.ts';

/** What reading a document gives: a whole look, or what is wrong with it, codes `look.*`. */
export type ReadLook =
  | { readonly look: Look; readonly versionRead: number }
  | { readonly look: null; readonly findings: readonly Finding[] };

/** Longest text of a look that is read. One with every list full has about 6 kB. */
export const lookTextMax = 65_536;

/** Enough to mend a document by; a wholly wrong one would fill pages. */
const findingsMax = 10;

/** Reads the text of a look of this or an older version. */
export function readLookText(text: string): ReadLook {
  if (text.length > lookTextMax) return refused('look.too-long', { charactersMax: lookTextMax });
  try {
    return readLook(JSON.parse(text));
  } catch {
    return refused('look.no-json', {});
  }
}

/** Reads a look out of any value. Older versions are lifted: the same picture in the present version's words. */
export function readLook(document: unknown): ReadLook {
  const version = versionOf(document);
  if (version === null) return refused('look.no-look', {});
  if (version > currentVersion) return refused('look.newer-version', { version, currentVersion });
  if (version === currentVersion) return parsedLook(document, version);
  const old = liftLook(document);
  if (old.lifted !== null) return parsedLook(old.lifted, version);
  const members = old.members.slice(0, findingsMax).join(', ');
  return refused('look.bad-old-version', { version, members });
}

function parsedLook(document: unknown, version: number): ReadLook {
  const parsed = lookSchema.safeParse(document);
  if (parsed.success) return { look: parsed.data, versionRead: version };
  return {
    look: null,
    findings: parsed.error.issues.slice(0, findingsMax).map((issue) => refusedMember(issue, document)),
  };
}

function versionOf(document: unknown): number | null {
  if (typeof document !== 'object' || document === null || !('version' in document)) return null;
  const { version } = document;
  return typeof version === 'number' && Number.isInteger(version) && version >= 1 ? version : null;
}

function refused(code: string, args: Finding['args']): ReadLook {
  return { look: null, findings: [{ code, args }] };
}
