import { textLines } from './text-lines.ts';

/** One line of `fetch.txt`: a file that is to be had elsewhere (RFC 8493, section 2.2.3). The address is never used here. */
export interface FetchLine {
  readonly address: string;
  /** Size in bytes; null for `-`. */
  readonly bytes: number | null;
  /** The path as written. */
  readonly text: string;
}

export function parseFetch(text: string): {
  readonly lines: readonly FetchLine[];
  readonly unread: readonly number[];
} {
  const lines: FetchLine[] = [];
  const unread: number[] = [];
  for (const { number, line } of textLines(text)) {
    const parts = /^(\S+)[ \t]+(\d{1,16}|-)[ \t]+(.*\S)[ \t]*$/.exec(line);
    if (parts === null) unread.push(number);
    else
      lines.push({
        address: parts[1] ?? '',
        bytes: parts[2] === '-' ? null : Number(parts[2]),
        text: parts[3] ?? '',
      });
  }
  return { lines, unread };
}
