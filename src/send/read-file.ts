import { createHash } from 'node:crypto';
import { type FileHandle, open } from 'node:fs/promises';
import { errorCode } from '../base/index.ts';
import { SendFailure } from './core/failure.ts';
import type { FileToSend } from './open-place.ts';

const pieceBytes = 1024 * 1024;

/** The file open for reading; `send.file-gone` where it is not there any more. */
export async function openLocal(file: FileToSend): Promise<FileHandle> {
  return open(file.path, 'r').catch((thrown: unknown) => {
    throw new SendFailure('file', 'send.file-gone', { name: file.name, why: errorCode(thrown) }, thrown);
  });
}

/**
 * Its bytes in pieces, from the first on, so that the hash of what is sent is known in the end: ends with `send.file-changed` where that
 * is not the file's. A piece is valid until the next one is asked for.
 */
export async function* piecesOf(
  handle: FileHandle,
  file: FileToSend,
  bytesOfPiece: number = pieceBytes,
): AsyncGenerator<{ readonly start: number; readonly bytes: Buffer }> {
  const hash = createHash('sha256');
  for (let start = 0; start < file.bytes; ) {
    // Each in a buffer of its own: pieces may be under way several at a time.
    const buffer = Buffer.allocUnsafe(Math.min(bytesOfPiece, file.bytes - start));
    const { bytesRead } = await handle.read(buffer, 0, buffer.length, start);
    if (bytesRead === 0) break;
    const bytes = buffer.subarray(0, bytesRead);
    hash.update(bytes);
    yield { start, bytes };
    start += bytesRead;
  }
  if (hash.digest('hex') !== file.sha256)
    throw new SendFailure('file', 'send.file-changed', { name: file.name });
}
