import type { FolderEntry } from '../../core/camera-folder.ts';
import { textToBytes } from '../../core/name-bytes.ts';
import { momentToTimeVal } from './moment.ts';
import type { FactName } from './session-state.ts';

/** RFC 3659 section 7.2: facts, one blank, the name as it is. */
export function factsLine(entry: FolderEntry, facts: readonly FactName[], name: string = entry.name): string {
  const values: Readonly<Record<FactName, string | null>> = {
    type: entry.kind === 'folder' ? 'dir' : 'file',
    size: entry.kind === 'file' ? String(entry.sizeBytes) : null,
    modify: momentToTimeVal(entry.modifiedMs),
  };
  const told = facts.filter((fact) => values[fact] !== null);
  return `${told.map((fact) => `${fact}=${values[fact]};`).join('')} ${name}`;
}

/** Lines with CR LF in pieces of about 16 kB, made as they are taken: a folder of any length needs no more memory. */
export function* linesInPieces(lines: Iterable<string>): Generator<Uint8Array> {
  let text = '';
  for (const line of lines) {
    text += `${line}\r\n`;
    if (text.length >= 16_384) {
      yield textToBytes(text);
      text = '';
    }
  }
  if (text !== '') yield textToBytes(text);
}
