import type { Wholeness } from '../facts/index.ts';
import { BoundedReader } from './bounded-reader.ts';
import { readTiff } from './inspect-tiff.ts';
import type { ExifPart, Inspection, JpegProgress } from './inspection.ts';
import type { Issue } from './issue.ts';
import { isViewable } from './jpeg-markers.ts';
import { type JpegWalk, walkJpeg, walkStart } from './jpeg-walk.ts';
import { jpegStepBytes } from './limits.ts';
import { noTags } from './picture-tags.ts';
import type { Preview } from './preview.ts';
import { parseTiffHeader, tiffHeaderBytesMax } from './tiff-header.ts';
import { TiffStructure } from './tiff-structure.ts';

/** A marker and the length field behind it. */
const segmentHeadBytes = 4;

/** Inspects a JPEG file; goes on where `previous` stopped. */
export function inspectJpeg(reader: BoundedReader, previous: Inspection | null): Inspection {
  const walk = walkJpeg(reader, previous?.resume?.walk ?? walkStart);
  const exif = previous?.resume?.exif ?? exifOf(reader, walk);
  const wholeness = wholenessOf(reader, walk);
  const expectedBytes = walk.stage === 'ended' ? walk.position : expectedAtLeast(reader, walk);
  return {
    kind: 'jpeg',
    previews: [...(exif?.previews ?? []), ...wholePicture(walk, exif)],
    wanted: reader.wanted,
    wantedNext: nextPosition(reader, walk, exif),
    wholeness,
    expectedBytes,
    tags: exif?.tags ?? noTags,
    pictureWidthPx: walk.frame?.widthPx || null,
    pictureHeightPx: walk.frame?.heightPx || null,
    jpeg: progressOf(walk),
    issues: joined(previous?.issues ?? [], reader.issues).slice(0, reader.limits.issuesMax),
    resume: { walk, exif },
  };
}

/** The tags and thumbnails of the Exif segment; null while it is not there whole and loaded. */
function exifOf(reader: BoundedReader, walk: JpegWalk): ExifPart | null {
  if (walk.exif === null) return null;
  const { offset, length } = walk.exif;
  const end = offset + length;
  if (end > reader.source.sizeBytes) return null;
  // An account of its own: what is broken in here says nothing of the picture's end.
  const inner = new BoundedReader(reader.source, reader.limits);
  const head = inner.peek(offset, Math.min(tiffHeaderBytesMax, length));
  const header = head === null ? null : parseTiffHeader(head);
  const parts = header === null ? null : readTiff(new TiffStructure(header, inner, offset, end));
  for (const range of inner.wanted) reader.want(range);
  if (inner.wanted.length > 0) return null;
  for (const issue of inner.issues) reader.warn(issue.code, issue.offset);
  return { tags: parts?.tags ?? noTags, previews: parts?.previews ?? [] };
}

function hasPicture(walk: JpegWalk): boolean {
  return walk.frame !== null && walk.frame.widthPx > 0 && walk.frame.heightPx > 0 && walk.scansStarted > 0;
}

function wholePicture(walk: JpegWalk, exif: ExifPart | null): Preview[] {
  if (walk.stage !== 'ended' || walk.frame === null || !hasPicture(walk) || !isViewable(walk.frame))
    return [];
  return [
    {
      offset: 0,
      length: walk.position,
      widthPx: walk.frame.widthPx,
      heightPx: walk.frame.heightPx,
      compression: 'jpeg',
      complete: true,
      colourSpace: exif?.tags.colorSpace === 1 ? 'srgb' : null,
    },
  ];
}

function progressOf(walk: JpegWalk): JpegProgress {
  return {
    process: walk.frame?.process ?? null,
    scansStarted: walk.scansStarted,
    scanBytes: walk.scanBytes,
    decodable: walk.frame !== null && isViewable(walk.frame) && walk.scanBytes > 0,
    endBytes: walk.stage === 'ended' ? walk.position : null,
  };
}

function wholenessOf(reader: BoundedReader, walk: JpegWalk): Wholeness {
  if (walk.stage === 'ended') {
    if (hasPicture(walk)) return { kind: 'whole' };
    reader.warn('jpeg-no-picture', walk.position);
    return { kind: 'unknown' };
  }
  const expectedBytes = expectedAtLeast(reader, walk);
  return expectedBytes === null ? { kind: 'unknown' } : { kind: 'cut', expectedBytes };
}

/**
 * A JPEG does not say how long it is: all that is proved is that an EOI must come behind what was walked. Null while
 * bytes that have arrived were not looked at.
 */
function expectedAtLeast(reader: BoundedReader, walk: JpegWalk): number | null {
  if (walk.stage === 'stopped' || reader.wanted.length > 0) return null;
  return Math.max(walk.position + 2, reader.source.sizeBytes + 1);
}

/** Behind the segments a picture grows byte by byte, so looking again is worth it every step. */
function nextPosition(reader: BoundedReader, walk: JpegWalk, exif: ExifPart | null): number | null {
  const { sizeBytes, ended } = reader.source;
  if (ended || walk.stage === 'ended' || walk.stage === 'stopped') return null;
  const ends = [sizeBytes + jpegStepBytes];
  if (exif === null && walk.exif !== null) ends.push(walk.exif.offset + walk.exif.length);
  if (walk.stage === 'segments') ends.push(walk.position + segmentHeadBytes);
  return Math.min(...ends.filter((end) => end > sizeBytes));
}

/** The issues of two inspections of one file, each once. */
function joined(earlier: readonly Issue[], later: readonly Issue[]): Issue[] {
  const isNew = (issue: Issue): boolean =>
    !earlier.some((known) => known.code === issue.code && known.offset === issue.offset);
  return [...earlier, ...later.filter(isNew)];
}
