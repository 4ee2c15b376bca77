import { readVerificationNote, type VerificationNote } from '../keep/index.ts';
import { sizePhrase } from '../words/index.ts';
import { existingHome } from './existing-home.ts';
import { exitCodes } from './exit-codes.ts';
import { printJson, printLine } from './output.ts';
import { countPhrase } from './verify-lines.ts';

/** `setside verify --status`: by what the station and the command noted; reads no original. */
export async function verifyStatus({
  home: given,
  json,
}: {
  readonly home: string;
  readonly json: boolean;
}): Promise<number> {
  const home = await existingHome(given);
  const note = await readVerificationNote(home);
  if (json) printJson({ home, round: note?.round ?? null, last: note?.last ?? null });
  else for (const line of statusLines(note)) printLine(line, json);
  const last = note?.last ?? null;
  const isFine = last !== null && last.badOriginals === 0 && last.places.every(({ bad }) => bad === 0);
  return isFine ? exitCodes.done : exitCodes.no;
}

/** For a person: the last reading, and the one that goes on. */
export function statusLines(note: VerificationNote | null): string[] {
  const { round, last } = note ?? { round: null, last: null };
  const lines: string[] = [];
  if (last === null) lines.push('Originals and copies were not read again yet.');
  else {
    lines.push(
      `All was read again, until ${new Date(last.endedMs).toISOString()}: ${countPhrase(last.files, 'original')}, ${last.badOriginals} not as received.`,
    );
    for (const { folder, files, bad, wasRead } of last.places)
      lines.push(
        wasRead
          ? `${folder}: ${files} copies, ${bad} not as made.`
          : `${folder}: was away, so its copies were not read.`,
      );
  }
  if (round !== null) {
    const bad = round.originals.length + round.copies.length;
    lines.push(
      `A reading goes on: ${round.doneFiles} of ${countPhrase(round.files, 'original')}, ${sizePhrase(round.doneBytes)} of ${sizePhrase(round.bytes)} with copies, ${bad} found bad so far.`,
    );
  }
  return lines;
}
