import type { BoundedReader } from './bounded-reader.ts';
import type { ByteRange } from './byte-source.ts';
import {
  exifSignature,
  frameHeaderBytes,
  isRestart,
  type JpegFrame,
  marker,
  parseFrame,
  standsAlone,
  startsFrame,
} from './jpeg-markers.ts';
import { StepWindow } from './step-window.ts';

/**
 * How far a JPEG has been walked. A value: hand it back to {@link walkJpeg} when more bytes have arrived and the walk
 * goes on where it stopped, so a growing file is looked at once.
 */
export interface JpegWalk {
  /** First byte not looked at; may lie beyond what has arrived, behind a segment that is still coming. */
  readonly position: number;
  /** `scan`: within entropy-coded data; `ended`: EOI was found; `stopped`: a limit was met. */
  readonly stage: 'segments' | 'scan' | 'ended' | 'stopped';
  readonly frame: JpegFrame | null;
  readonly scansStarted: number;
  /** Entropy-coded bytes walked. */
  readonly scanBytes: number;
  /** Where the last of them ends; 0 before the first. */
  readonly scanEnd: number;
  readonly segments: number;
  /** The TIFF structure of the first Exif segment (APP1). */
  readonly exif: ByteRange | null;
  /** The TIFF structure of the first Multi-Picture index (APP2). */
  readonly mpIndex: ByteRange | null;
}

/** A walk that has seen SOI. */
export const walkStart: JpegWalk = Object.freeze({
  position: 2,
  stage: 'segments',
  frame: null,
  scansStarted: 0,
  scanBytes: 0,
  scanEnd: 0,
  segments: 0,
  exif: null,
  mpIndex: null,
});

/** "MPF", NUL: CIPA DC-007-2009 section 5.2.1. */
const mpSignature: readonly number[] = [0x4d, 0x50, 0x46, 0];

type Draft = { -readonly [K in keyof JpegWalk]: JpegWalk[K] };

/**
 * Walks marker by marker from where `from` stopped to the EOI that ends the picture, or as far as the bytes at hand
 * reach; what is missing is wanted from the reader. Stuffed zeros and restart markers are part of a scan, fill bytes
 * are skipped (ITU-T T.81 B.1.1). Bytes behind EOI are not looked at.
 */
export function walkJpeg(reader: BoundedReader, from: JpegWalk): JpegWalk {
  const walk: Draft = { ...from };
  const window = new StepWindow(reader);
  let goesOn = true;
  while (goesOn && (walk.stage === 'segments' || walk.stage === 'scan')) {
    if (walk.segments > reader.limits.markersMax || walk.position > reader.limits.walkBytesMax) {
      reader.doubt('jpeg-too-long', walk.position);
      walk.stage = 'stopped';
    } else goesOn = walk.stage === 'scan' ? walkScan(window, walk) : walkMarker(reader, window, walk);
  }
  return walk;
}

/** One marker with its segment; false where its bytes are not at hand. */
function walkMarker(reader: BoundedReader, window: StepWindow, walk: Draft): boolean {
  const head = window.at(walk.position, 2);
  if (head === null) return false;
  const code = head[1] ?? 0;
  if (head[0] !== 0xff || code === marker.stuffedZero) return skipJunk(reader, window, walk);
  if (code === 0xff) walk.position += 1;
  else if (code === marker.EOI) {
    walk.position += 2;
    walk.stage = 'ended';
  } else if (standsAlone(code)) walk.position += 2;
  else return walkSegment(reader, window, walk, code);
  return true;
}

function walkSegment(reader: BoundedReader, window: StepWindow, walk: Draft, code: number): boolean {
  const head = window.at(walk.position + 2, 2);
  if (head === null) return false;
  const length = (head[0] ?? 0) * 256 + (head[1] ?? 0);
  if (length < 2) {
    reader.warn('jpeg-bad-segment', walk.position);
    walk.position += 2;
    return true;
  }
  if (!readSegment(reader, window, walk, code, length)) return false;
  walk.segments += 1;
  walk.position += 2 + length;
  if (code === marker.SOS) {
    walk.stage = 'scan';
    walk.scansStarted += 1;
  }
  return true;
}

/** Takes from a segment what is needed; false where that is not at hand. */
function readSegment(
  reader: BoundedReader,
  window: StepWindow,
  walk: Draft,
  code: number,
  length: number,
): boolean {
  const body = walk.position + 2;
  if (startsFrame(code) && walk.frame === null) {
    if (length < frameHeaderBytes) {
      reader.warn('jpeg-bad-segment', walk.position);
      return true;
    }
    const bytes = window.at(body, frameHeaderBytes);
    if (bytes !== null) walk.frame = parseFrame(code, bytes);
    return bytes !== null;
  }
  if (code === marker.DNL && walk.frame?.heightPx === 0 && length >= 4) {
    const bytes = window.at(body + 2, 2);
    if (bytes !== null) walk.frame = { ...walk.frame, heightPx: (bytes[0] ?? 0) * 256 + (bytes[1] ?? 0) };
    return bytes !== null;
  }
  if (code === marker.APP1 && walk.exif === null) {
    const exif = signedPart(window, body, length, exifSignature);
    if (exif !== 'pending') walk.exif = exif;
    return exif !== 'pending';
  }
  if (code === marker.APP2 && walk.mpIndex === null) {
    const index = signedPart(window, body, length, mpSignature);
    if (index !== 'pending') walk.mpIndex = index;
    return index !== 'pending';
  }
  return true;
}

/** What follows a signature in a segment whose length field is at `body`; null where the segment is another's. */
function signedPart(
  window: StepWindow,
  body: number,
  length: number,
  signature: readonly number[],
): ByteRange | null | 'pending' {
  const skipped = 2 + signature.length;
  if (length <= skipped) return null;
  const bytes = window.at(body + 2, signature.length);
  if (bytes === null) return 'pending';
  const isSigned = signature.every((byte, i) => bytes[i] === byte);
  return isSigned ? { offset: body + skipped, length: length - skipped } : null;
}

/** Decoders in the field look for the next marker; so do we, and say so. */
function skipJunk(reader: BoundedReader, window: StepWindow, walk: Draft): boolean {
  reader.warn('jpeg-junk', walk.position);
  const step = window.from(walk.position + 1);
  if (step === null) return false;
  const next = step.indexOf(0xff);
  walk.position += 1 + (next < 0 ? step.length : next);
  return true;
}

/**
 * Entropy-coded data up to the next marker that is no restart; false where the bytes at hand end first. Codes below
 * SOF0 other than the stuffed zero start no segment a scan can hold (T.81 table B.1): they are damage, and following
 * them could skip the EOI.
 */
function walkScan(window: StepWindow, walk: Draft): boolean {
  const step = window.from(walk.position);
  if (step === null) return false;
  let at = step.indexOf(0xff);
  while (at >= 0 && at + 1 < step.length) {
    const code = step[at + 1] ?? 0;
    if (code >= marker.SOF0 && !isRestart(code) && code !== 0xff) {
      walk.stage = 'segments';
      break;
    }
    // Of two 0xFF the second may start the marker.
    at = step.indexOf(0xff, at + (code === 0xff ? 1 : 2));
  }
  // A 0xFF at the end of the step waits for its second byte.
  const walked = at < 0 ? step.length : at;
  walk.position += walked;
  walk.scanBytes += walked;
  if (walked > 0) walk.scanEnd = walk.position;
  return walk.stage === 'segments' || walked > 0;
}
