/** One field of `bag-info.txt`; labels may come more than once and their order counts (RFC 8493, section 2.2.2). */
export interface InfoField {
  readonly label: string;
  readonly value: string;
}

/** The fields of `bag-info.txt`; a line that begins with a blank goes on with the field before. `unread` are line numbers. */
export function parseInfo(text: string): {
  readonly fields: readonly InfoField[];
  readonly unread: readonly number[];
} {
  const fields: { label: string; value: string }[] = [];
  const unread: number[] = [];
  for (const [index, line] of text.split(/\r\n|\n|\r/).entries()) {
    if (line.trim() === '') continue;
    const last = fields.at(-1);
    const colon = line.indexOf(':');
    if (/^[ \t]/.test(line) && last !== undefined) last.value += ` ${line.trim()}`;
    else if (colon > 0)
      fields.push({ label: line.slice(0, colon).trim(), value: line.slice(colon + 1).trim() });
    else unread.push(index + 1);
  }
  return { fields, unread };
}

/** The text of `bag-info.txt`. Whatever would begin a new line becomes a blank. */
export function infoText(fields: readonly InfoField[]): string {
  return fields.map(({ label, value }) => `${label}: ${value.replace(/\s+/g, ' ').trim()}\n`).join('');
}

export interface Oxum {
  readonly bytes: number;
  readonly files: number;
}

/** `OctetCount.StreamCount` of the payload, or null where the text is none. */
export function parseOxum(value: string): Oxum | null {
  const parts = /^(\d{1,16})\.(\d{1,16})$/.exec(value);
  return parts === null ? null : { bytes: Number(parts[1]), files: Number(parts[2]) };
}

export function oxumText({ bytes, files }: Oxum): string {
  return `${bytes}.${files}`;
}
