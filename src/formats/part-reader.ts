import { BoundedReader } from './bounded-reader.ts';
import type { ByteRange } from './byte-source.ts';

/**
 * Reads a part of a file that has a structure of its own, with an account of its own: what is broken in there says
 * nothing of where the file ends. Null while the part has not arrived whole, or not all of it that was read is loaded.
 */
export function readPart<T>(
  reader: BoundedReader,
  part: ByteRange | null,
  read: (inner: BoundedReader, part: ByteRange) => T,
): T | null {
  if (part === null || part.offset + part.length > reader.source.sizeBytes) return null;
  const inner = new BoundedReader(reader.source, reader.limits);
  const content = read(inner, part);
  for (const range of inner.wanted) reader.want(range);
  if (inner.wanted.length > 0) return null;
  for (const issue of inner.issues) reader.warn(issue.code, issue.offset);
  return content;
}
