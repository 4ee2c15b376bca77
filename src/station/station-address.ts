import { readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { errorCode } from '../base/index.ts';

/** `HOME/station.address`: where the page and the calls of the running station are, for commands beside it. */
function addressFile(home: string): string {
  return join(home, 'station.address');
}

/**
 * Writes where the station is, for this user only (mode 0600). Gives what takes it away again. A station that was killed
 * leaves it: whoever reads it asks there whether it is the station of this home.
 */
export async function writeStationAddress(home: string, web: string): Promise<() => Promise<void>> {
  const file = addressFile(home);
  await writeFile(`${file}.new`, `${web}\n`, { mode: 0o600 });
  await rename(`${file}.new`, file);
  return () => rm(file, { force: true });
}

/** What a station of this home wrote last; null where there is nothing, or no address on this computer. */
export async function readStationAddress(home: string): Promise<string | null> {
  try {
    const text = (await readFile(addressFile(home), 'utf8')).trim();
    return /^https?:\/\/(127\.0\.0\.1|localhost|\[::1\]):\d{1,5}$/.test(text) ? text : null;
  } catch (thrown) {
    if (errorCode(thrown) === 'ENOENT' || errorCode(thrown) === 'ENOTDIR') return null;
    throw thrown;
  }
}
