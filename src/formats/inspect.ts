import { BoundedReader } from './bounded-reader.ts';
import type { ByteSource } from './byte-source.ts';
import { decidedBytes, kindOf, signatureBytes } from './content-kind.ts';
import { inspectDelivered } from './inspect-delivered.ts';
import { inspectIsoBmff } from './inspect-iso-bmff.ts';
import { inspectJpeg } from './inspect-jpeg.ts';
import { inspectRaf } from './inspect-raf.ts';
import { inspectTiff, nothingKnown } from './inspect-tiff.ts';
import type { Inspection } from './inspection.ts';
import { defaultLimits, type Limits } from './limits.ts';

/**
 * What the bytes at hand say of a file. Never throws for what a file holds: damage comes back as issues. Asking again
 * after more has arrived is cheap for directories; for a JPEG pass the `previous` inspection of the same file, so that
 * its picture is walked once and not from the start.
 */
export function inspect(
  source: ByteSource,
  limits: Limits = defaultLimits,
  previous: Inspection | null = null,
): Inspection {
  const reader = new BoundedReader(source, limits);
  if (previous?.resume) return inspectJpeg(reader, previous);
  const head = reader.peek(0, Math.min(signatureBytes, source.sizeBytes));
  if (head === null) return nothingKnown('unknown', reader);
  const kind = kindOf(head);
  if (!source.ended && head.length < decidedBytes) {
    return { ...nothingKnown(kind === 'empty' ? kind : 'unknown', reader), wantedNext: decidedBytes };
  }
  if (kind === 'tiff') return inspectTiff(reader);
  if (kind === 'iso-bmff-raw') return inspectIsoBmff(reader);
  if (kind === 'raf') return inspectRaf(reader);
  if (kind === 'jpeg') return inspectJpeg(reader, null);
  if (kind === 'png' || kind === 'webp') return inspectDelivered(kind, reader);
  const mayChange = kind === 'text' && !source.ended && head.length < signatureBytes;
  return { ...nothingKnown(kind, reader), wantedNext: mayChange ? signatureBytes : null };
}
