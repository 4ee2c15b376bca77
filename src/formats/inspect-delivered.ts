import type { Wholeness } from '../facts/index.ts';
import type { BoundedReader } from './bounded-reader.ts';
import { nothingKnown } from './inspect-tiff.ts';
import type { Inspection } from './inspection.ts';

/** IEND, the last chunk of every PNG: no length, its name, and its CRC (PNG third edition, W3C 2025, 11.2.5). */
const pngEnd = [0, 0, 0, 0, 0x49, 0x45, 0x4e, 0x44, 0xae, 0x42, 0x60, 0x82] as const;
/** RIFF: four letters, the size of what follows (little endian), the form's four letters (RFC 9649 section 2.3). */
const riffHeadBytes = 12;
const riffSizeCovers = 8;

/**
 * PNG and WebP: formats that programs deliver and cameras do not send. Only their wholeness is looked at; their size
 * and colours are the decoder's business.
 */
export function inspectDelivered(kind: 'png' | 'webp', reader: BoundedReader): Inspection {
  const whole = kind === 'png' ? pngWholeness(reader) : webpWholeness(reader);
  return {
    ...nothingKnown(kind, reader),
    wanted: reader.wanted,
    wholeness: whole,
    expectedBytes: whole.kind === 'cut' ? whole.expectedBytes : null,
  };
}

/** Whole where the file ends as every PNG ends. One with bytes behind its end, or cut, cannot be told apart: unknown. */
function pngWholeness(reader: BoundedReader): Wholeness {
  const { sizeBytes, ended } = reader.source;
  if (!ended || sizeBytes < pngEnd.length) return { kind: 'unknown' };
  const tail = reader.peek(sizeBytes - pngEnd.length, pngEnd.length);
  const isEnd = tail !== null && pngEnd.every((byte, at) => tail[at] === byte);
  return isEnd ? { kind: 'whole' } : { kind: 'unknown' };
}

/** The head says how long the file is; a size past 4 GB does not fit and is written as less, so more is no fault. */
function webpWholeness(reader: BoundedReader): Wholeness {
  const head = reader.peek(0, riffHeadBytes);
  if (head === null) return { kind: 'unknown' };
  const length = new DataView(head.buffer, head.byteOffset, head.byteLength).getUint32(4, true);
  const expectedBytes = length + riffSizeCovers;
  return reader.source.sizeBytes >= expectedBytes ? { kind: 'whole' } : { kind: 'cut', expectedBytes };
}
