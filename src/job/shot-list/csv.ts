import type { Shot } from '../job.ts';
import { cellWriters } from './cells.ts';
import { columns } from './columns.ts';

/** One line of a file as it was cut into cells, or what is wrong with it. */
export type Row =
  | { readonly line: number; readonly cells: readonly string[] }
  | { readonly line: number; readonly fault: RowFault };

/** `given-up`: so many lines were wrong that nothing from this one on was read. */
export type RowFault = 'quote' | 'unclosed' | 'too-long' | 'given-up';

/** A reader of CSV (RFC 4180): gives rows in their order, each with the number of its first line, blank lines left out. */
export type CutRows = (text: string, delimiter: Delimiter) => readonly Row[];

/** RFC 4180 has the comma; where that is the decimal sign spreadsheets write a semicolon, and from the clipboard a tab. */
const delimiters = [',', ';', '\t'] as const;
export type Delimiter = (typeof delimiters)[number];

/** A first line by which spreadsheets say the delimiter, and nothing else (common practice, no source). */
const delimiterLine = /^"?sep=([,;\t])"?(?=\n|$)/i;

/** The list without a line that only says its delimiter: that one is blank, so that every other keeps its number. */
export function listBody(text: string): string {
  return text.replace(delimiterLine, '');
}

/** The delimiter that the file says, else the one that the first line has most of outside of quotes. */
export function delimiterOf(text: string): Delimiter {
  const said = delimiters.find((delimiter) => delimiter === delimiterLine.exec(text)?.[1]);
  if (said !== undefined) return said;
  const header = (/^.*/.exec(text)?.[0] ?? '').replace(/"[^"]*"/g, '');
  const counts = delimiters.map((delimiter) => header.split(delimiter).length - 1);
  return delimiters[counts.indexOf(Math.max(...counts))] ?? ',';
}

/** A shot list as CSV after RFC 4180: a header, CR LF after each line, UTF-8 without a mark. */
export function writeShotList(shots: readonly Shot[]): string {
  const lines = [
    [...columns],
    ...shots.map((shot) => columns.map((column) => guarded(cellWriters[column](shot)))),
  ];
  return lines.map((cells) => `${cells.map(quoted).join(',')}\r\n`).join('');
}

/** RFC 4180 section 2, rules 6 and 7; blanks at the ends are quoted too, since some readers take them away. */
function quoted(cell: string): string {
  return /[",\r\n]|^\s|\s$/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}

/**
 * A spreadsheet runs what begins like a formula. An apostrophe in front keeps it text (OWASP, CSV Injection), and
 * {@link unguarded} takes it away again.
 */
function guarded(cell: string): string {
  return /^'*[=+\-@\t]/.test(cell) ? `'${cell}` : cell;
}

export function unguarded(cell: string): string {
  return /^'+[=+\-@\t]/.test(cell) ? cell.slice(1) : cell;
}
