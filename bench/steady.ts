import { randomBytes } from 'node:crypto';
import { closeSync, openSync, unlinkSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Files sent before the watch starts: a set sends hundreds, and Node compiles what it runs while it runs. */
export const warmUpFiles = 12;

/** MB/s of sending so many files one after another, once sender and receiver are warm: the same way on both sides. */
export async function steadyMBPerS(
  files: number,
  fileBytes: number,
  send: (bytes: Uint8Array, file: number) => Promise<unknown>,
): Promise<number> {
  const bytes = randomBytes(fileBytes);
  const sendSome = async (from: number, to: number): Promise<void> => {
    for (let file = from; file < to; file++) {
      // Another first byte makes it another content: the same bytes again would be known and not kept twice.
      bytes.writeUInt32LE(file, 0);
      await send(bytes, file);
    }
  };
  await sendSome(0, warmUpFiles);
  holdMemory(files * fileBytes);
  const start = performance.now();
  await sendSome(warmUpFiles, warmUpFiles + files);
  return (files * fileBytes) / 1e6 / ((performance.now() - start) / 1000);
}

/**
 * Has the system hold memory for so many bytes of files, as it does in the middle of a day's work: writes them and
 * takes them away again. A virtual machine may give memory that has been free for seconds back to its host (Linux: free
 * page reporting), and then the first write to it takes ten times as long (seen here: 2.3 ms against 0.23 ms for each
 * MB). Called right before each timed stretch of ours and of the reference, so that neither pays for it.
 */
export function holdMemory(bytes: number): void {
  const path = join(tmpdir(), `setside-bench-hold-${process.pid}`);
  const file = openSync(path, 'w');
  const piece = Buffer.alloc(4e6);
  for (let held = 0; held < bytes * margin; held += piece.length) writeSync(file, piece);
  closeSync(file);
  unlinkSync(path);
}

/** For what else is being written meanwhile. */
const margin = 1.25;
