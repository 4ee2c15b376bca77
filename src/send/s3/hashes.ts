import { createHash } from 'node:crypto';
import type { Part } from '../core/parts.ts';
import type { FileToSend } from '../open-place.ts';
import { openLocal, piecesOf } from '../read-file.ts';

export interface PartHash extends Part {
  /** SHA-256 in base64, as S3 writes checksums. */
  readonly sha256: string;
}

/** The file's SHA-256 and those of its parts, in base64, in one reading. Rejects where the file is not what it was. */
export async function hashesOf(
  file: FileToSend,
  parts: readonly Part[] | null,
): Promise<{ readonly whole: string; readonly parts: readonly PartHash[] | null }> {
  const hashed: PartHash[] = [];
  const handle = await openLocal(file);
  try {
    let hash = createHash('sha256');
    for await (const { start, bytes } of piecesOf(handle, file)) {
      hash.update(bytes);
      // Parts are whole MiB long, and so are pieces.
      const part = parts?.[hashed.length];
      if (part === undefined || start + bytes.length < part.start + part.bytes) continue;
      hashed.push({ ...part, sha256: hash.digest('base64') });
      hash = createHash('sha256');
    }
  } finally {
    await handle.close();
  }
  return {
    whole: Buffer.from(file.sha256, 'hex').toString('base64'),
    parts: parts === null ? null : hashed,
  };
}

/**
 * The checksum that an object of parts has: SHA-256 of the parts' own, one behind another, and their number (Amazon S3 User Guide,
 * "Checking object integrity", composite checksums; from memory).
 */
export function compositeHash(parts: readonly PartHash[]): string {
  const hash = createHash('sha256');
  for (const { sha256 } of parts) hash.update(Buffer.from(sha256, 'base64'));
  return `${hash.digest('base64')}-${parts.length}`;
}

export async function readPart(file: FileToSend, { start, bytes }: Part): Promise<Buffer> {
  const handle = await openLocal(file);
  try {
    const piece = Buffer.alloc(bytes);
    let got = 0;
    while (got < bytes) {
      const { bytesRead } = await handle.read(piece, got, bytes - got, start + got);
      if (bytesRead === 0) break;
      got += bytesRead;
    }
    return piece.subarray(0, got);
  } finally {
    await handle.close();
  }
}

export async function sha256Base64(stream: AsyncIterable<Uint8Array>): Promise<string> {
  const hash = createHash('sha256');
  for await (const bytes of stream) hash.update(bytes);
  return hash.digest('base64');
}
