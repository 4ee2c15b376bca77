import { encodedPath } from './path-in-bag.ts';
import { type Algorithm, algorithms } from './shapes.ts';
import { textLines } from './text-lines.ts';

export interface ManifestLine {
  readonly number: number;
  /** Hexadecimal, small letters. */
  readonly checksum: string;
  /** The path as written: still encoded, and not yet known to be harmless. */
  readonly text: string;
}

export interface ManifestName {
  readonly name: string;
  readonly kind: 'payload' | 'tags';
  /** As in the name, letters made small and all but letters and figures taken out (RFC 8493, section 2.4). */
  readonly algorithm: string;
}

/** What a file of this name at the top of a bag lists, or null where it is no manifest. */
export function manifestName(name: string): ManifestName | null {
  const parts = /^(tag)?manifest-(.+)\.txt$/i.exec(name);
  if (parts === null) return null;
  const algorithm = (parts[2] ?? '').toLowerCase().replace(/[^a-z0-9]/g, '');
  return { name, kind: parts[1] === undefined ? 'payload' : 'tags', algorithm };
}

export function isAlgorithm(name: string): name is Algorithm {
  return algorithms.some((known) => known === name);
}

/** The lines of a manifest, and the numbers of those that are none. A `*` before the path, as checksum tools write, is left out. */
export function parseManifest(text: string): {
  readonly lines: readonly ManifestLine[];
  readonly unread: readonly number[];
} {
  const lines: ManifestLine[] = [];
  const unread: number[] = [];
  for (const { number, line } of textLines(text)) {
    const parts = /^([0-9A-Fa-f]+)(?:[ \t]\*|[ \t]+)(.*\S)[ \t]*$/.exec(line);
    if (parts === null) unread.push(number);
    else lines.push({ number, checksum: (parts[1] ?? '').toLowerCase(), text: parts[2] ?? '' });
  }
  return { lines, unread };
}

/**
 * A manifest's text, by path. Two blanks stand between checksum and path, so that `sha256sum -c` and its kin read it too
 * (they do where no path is encoded).
 */
export function manifestText(sums: Iterable<{ readonly path: string; readonly checksum: string }>): string {
  return [...sums]
    .sort((a, b) => (a.path < b.path ? -1 : 1))
    .map(({ path, checksum }) => `${checksum}  ${encodedPath(path)}\n`)
    .join('');
}
