import { readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { parseVerified, type Verified, verifiedText } from './core/verified.ts';
import { fileStamp } from './file-stamp.ts';

/** `HOME/verified.json`: derived, since the next `setside verify` finds it again. */
export function verifiedPath(home: string): string {
  return join(home, 'verified.json');
}

/** Leaves what was found for the station, which may be running or start later. Rejects what the disk rejects. */
export async function writeVerified(home: string, verified: Verified): Promise<void> {
  const path = verifiedPath(home);
  const fresh = `${path}.${process.pid}`;
  try {
    await writeFile(fresh, verifiedText(verified), { mode: 0o600 });
    // One name, one moment: the station reads the whole of the old one or of the new one.
    await rename(fresh, path);
  } catch (cause) {
    await rm(fresh, { force: true });
    throw cause;
  }
}

/** What was left last; null where there is nothing, or nothing that can be read. */
export async function readVerified(home: string): Promise<Verified | null> {
  return parseVerified(await readFile(verifiedPath(home), 'utf8').catch(() => ''));
}

/** Changes when another reading has left something; null where none has. Costs one look at a name. */
export function verifiedStamp(home: string): Promise<string | null> {
  return fileStamp(verifiedPath(home));
}
