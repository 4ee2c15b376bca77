import { readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { parseVerificationNote, type VerificationNote, verificationText } from './core/verification-note.ts';
import { fileStamp } from './file-stamp.ts';

/** `HOME/verification.json`: how far the reading is, and what the last one found. Without it the days count anew. */
export async function writeVerificationNote(home: string, note: VerificationNote): Promise<void> {
  const path = notePath(home);
  const fresh = `${path}.${process.pid}`;
  try {
    await writeFile(fresh, verificationText(note), { mode: 0o600 });
    await rename(fresh, path);
  } catch (cause) {
    await rm(fresh, { force: true });
    throw cause;
  }
}

/** Null where there is none, or none that can be read. */
export async function readVerificationNote(home: string): Promise<VerificationNote | null> {
  return parseVerificationNote(await readFile(notePath(home), 'utf8').catch(() => ''));
}

/** Changes when the note was written anew, by whomever; null where there is none. Costs one look at a name. */
export function verificationStamp(home: string): Promise<string | null> {
  return fileStamp(notePath(home));
}

function notePath(home: string): string {
  return join(home, 'verification.json');
}
