import { type BagFinding, bad } from './shapes.ts';
import { textLines } from './text-lines.ts';

export interface Declaration {
  readonly major: number;
  readonly minor: number;
  /** As written; the tag files other than `bagit.txt` are in it. */
  readonly encoding: string;
}

/** `bagit.txt` as we write it (RFC 8493, section 2.1.1). */
export const declarationText = 'BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n';

/** Reads `bagit.txt`: the version and the encoding, or what is wrong with it. */
export function parseDeclaration(text: string): Declaration | BagFinding {
  if (text.startsWith('\uFEFF')) return bad('bag.declaration-mark');
  const said = new Map<string, string>();
  for (const { line } of textLines(text)) {
    const colon = line.indexOf(':');
    if (colon < 0) return bad('bag.declaration-line', { line });
    said.set(line.slice(0, colon).trim(), line.slice(colon + 1).trim());
  }
  const version = /^(\d{1,3})\.(\d{1,3})$/.exec(said.get('BagIt-Version') ?? '');
  const encoding = said.get('Tag-File-Character-Encoding') ?? '';
  if (version === null) return bad('bag.declaration-lacks', { field: 'BagIt-Version' });
  if (encoding === '') return bad('bag.declaration-lacks', { field: 'Tag-File-Character-Encoding' });
  return { major: Number(version[1]), minor: Number(version[2]), encoding };
}
