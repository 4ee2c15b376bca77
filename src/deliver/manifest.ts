import type { Finding } from '../facts/index.ts';

/** A file of a delivery. Hashes are SHA-256 in hexadecimal. */
export interface ManifestLine {
  /** Below the delivery's folder. */
  readonly file: string;
  readonly sha256: string;
  readonly bytes: number;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly frame: string;
  readonly shot: string;
  /** The original's name, and the hash of what was read. */
  readonly original: string;
  readonly originalSha256: string;
  /** Title of the look; empty where none was applied, and then its hash is. */
  readonly look: string;
  readonly lookSha256: string;
  /** What is to be said of it. */
  readonly findings: readonly Finding[];
}

/** The same with where it went. */
export interface ManifestFile extends ManifestLine {
  /** Address at the destination; empty where it was not sent. */
  readonly sentTo: string;
}

/** A file that was not made, and why. */
export interface ManifestGap {
  readonly frame: string;
  readonly original: string;
  readonly finding: Finding;
}

export interface Manifest {
  readonly job: string;
  readonly specification: string;
  /** SHA-256 of the specification in its canonical form. */
  readonly specificationSha256: string;
  /** What was asked for, whole: a specification as it was written when the delivery began. */
  readonly asked: Readonly<Record<string, unknown>>;
  readonly files: readonly ManifestFile[];
  readonly missing: readonly ManifestGap[];
}

/** Two spaces, a line feed at the end; the same delivery gives the same bytes. */
export function manifestJson(manifest: Manifest): string {
  return `${JSON.stringify(manifest, null, 2)}\n`;
}

const columns = [
  'file',
  'sha256',
  'bytes',
  'widthPx',
  'heightPx',
  'frame',
  'shot',
  'original',
  'originalSha256',
  'look',
  'lookSha256',
  'sentTo',
] as const satisfies readonly (keyof ManifestFile)[];

/**
 * RFC 4180: commas, CRLF, a header, quotes where they have to be, in UTF-8. A text that a spreadsheet would take for a formula has an
 * apostrophe in front (OWASP, "CSV Injection", from memory). `words` makes a line of what is to be said. Files that were not made
 * follow, with an empty `file`.
 */
export function manifestCsv({ files, missing }: Manifest, words: (finding: Finding) => string): string {
  const rows = files.map((line) => [
    ...columns.map((column) => String(line[column])),
    line.findings.map((each) => words(each)).join(' '),
  ]);
  const gaps = missing.map(({ frame, original, finding }) => [
    ...columns.map((column) => (column === 'frame' ? frame : column === 'original' ? original : '')),
    words(finding),
  ]);
  return [[...columns, 'remark'], ...rows, ...gaps]
    .map((row) => `${row.map(csvField).join(',')}\r\n`)
    .join('');
}

function csvField(text: string): string {
  const plain = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain;
}
