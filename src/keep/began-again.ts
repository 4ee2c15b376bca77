import type { KeepContext } from './context.ts';

/** So much of the beginning is held against what came behind the offset: more than any header that all files of a camera share. */
const comparedBytes = 4096;
/** Fewer equal bytes prove nothing. */
const comparedBytesMin = 512;

/**
 * Whether a client that asked to go on at an offset sent its file from the beginning instead (NcFTP 3.2.6 does with `-z`):
 * behind the offset lie the file's first bytes once more. Then its structure, which is read from the front, may find
 * everything in its place, and the picture is none.
 */
export async function beganAgain(
  { disk }: Pick<KeepContext, 'disk'>,
  path: string,
  offsetBytes: number,
  sizeBytes: number,
): Promise<boolean> {
  const length = Math.min(comparedBytes, offsetBytes, sizeBytes - offsetBytes);
  if (length < comparedBytesMin) return false;
  const file = await disk.openFile(path, 'read');
  try {
    const first = Buffer.alloc(length);
    const behind = Buffer.alloc(length);
    const read = [await file.read(first, 0), await file.read(behind, offsetBytes)];
    return read.every((count) => count === length) && first.equals(behind);
  } finally {
    await file.close();
  }
}
