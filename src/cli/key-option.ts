import { open } from 'node:fs/promises';
import { errorCode, SetsideError } from '../base/index.ts';
import { cleanKeyLine, isPrivateKey, noKey, privateKeyGiven } from '../station/index.ts';

/** A file of public keys is smaller: a line of 8,000 characters for each of 16. */
const fileBytesMax = 128 * 1024;

/**
 * The public keys that a `--key` names: the one line of a key, or a file with such lines. Rejects `private-key` with the
 * file to give instead, and as `cleanKeyLine` throws.
 */
export async function keysOf(given: string): Promise<string[]> {
  const text = await textOfFile(given);
  if (text === null) return [lineGiven(given)];
  if (isPrivateKey(text)) throw privateKeyGiven(given);
  const lines = text.split(/\r?\n/).filter((line) => line.trim() !== '' && !line.startsWith('#'));
  if (lines.length === 0) throw noKey();
  return lines.map(cleanKeyLine);
}

function lineGiven(given: string): string {
  // Only what can be no secret is said again.
  if (!/[\s]/.test(given) && given.length < 200) {
    throw new SetsideError('bad-key', `${given} is neither a file nor a public key`, {
      cure: 'Give a .pub file, or its one line in quotes: "ssh-ed25519 AAAA… name".',
    });
  }
  return cleanKeyLine(given);
}

/** Null where there is no such file: then it was the key itself, or nothing. */
async function textOfFile(path: string): Promise<string | null> {
  if (/[\r\n\0]/.test(path)) return null;
  try {
    const file = await open(path, 'r');
    try {
      const { buffer, bytesRead } = await file.read(Buffer.alloc(fileBytesMax), 0, fileBytesMax, 0);
      return buffer.toString('utf8', 0, bytesRead);
    } finally {
      await file.close();
    }
  } catch (thrown) {
    const code = errorCode(thrown);
    if (code === 'EISDIR') throw noKey();
    if (code === 'ENOENT' || code === 'ENAMETOOLONG' || code === 'ENOTDIR') return null;
    throw thrown;
  }
}
