import type { Wholeness } from '../facts/index.ts';
import type { BoundedReader } from './bounded-reader.ts';
import type { ByteRange } from './byte-source.ts';
import type { ExifPart, Inspection, JpegProgress } from './inspection.ts';
import type { Issue } from './issue.ts';
import { isViewable } from './jpeg-markers.ts';
import { exifOf, furtherPreviews, picturesOf } from './jpeg-parts.ts';
import { type JpegWalk, walkJpeg, walkStart } from './jpeg-walk.ts';
import { jpegStepBytes } from './limits.ts';
import { noTags } from './picture-tags.ts';
import type { Preview } from './preview.ts';

/** The most a walk looks at of one segment: marker and length with a frame header, or with the signature of Exif. */
const segmentHeadBytes = 10;

/** Inspects a JPEG file; goes on where `previous` stopped. */
export function inspectJpeg(reader: BoundedReader, previous: Inspection | null): Inspection {
  const walk = walkJpeg(reader, previous?.resume?.walk ?? walkStart);
  const exif = previous?.resume?.exif ?? exifOf(reader, walk.exif);
  const pictures = previous?.resume?.pictures ?? picturesOf(reader, walk);
  const further = furtherPreviews(reader, pictures ?? []);
  const listedEnd = Math.max(0, ...(pictures ?? []).map(({ offset, length }) => offset + length));
  return {
    kind: 'jpeg',
    previews: [...(exif?.previews ?? []), ...wholePicture(walk, exif), ...further],
    wanted: reader.wanted,
    wantedNext: nextPosition(reader, walk, exif, pictures),
    wholeness: wholenessOf(reader, walk, listedEnd),
    expectedBytes: announcedEnd(reader, walk, listedEnd),
    tags: exif?.tags ?? noTags,
    pictureWidthPx: walk.frame?.widthPx || null,
    pictureHeightPx: walk.frame?.heightPx || null,
    jpeg: progressOf(walk),
    issues: joined(previous?.issues ?? [], reader.issues).slice(0, reader.limits.issuesMax),
    resume: { walk, exif, pictures },
  };
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
    decodable: walk.frame !== null && isViewable(walk.frame) && walk.frame.heightPx > 0 && walk.scanBytes > 0,
    scanEndBytes: walk.scanEnd,
    endBytes: walk.stage === 'ended' ? walk.position : null,
  };
}

/** The picture must have come to its EOI, and what the Multi-Picture index lists must be there (`listedEnd`). */
function wholenessOf(reader: BoundedReader, walk: JpegWalk, listedEnd: number): Wholeness {
  const expectedBytes = announcedEnd(reader, walk, listedEnd);
  if (expectedBytes !== null && expectedBytes > reader.source.sizeBytes)
    return { kind: 'cut', expectedBytes };
  // Nothing of what has arrived was left out, and the end has not come: more must follow.
  if (isUnderWay(reader, walk)) return { kind: 'cut', expectedBytes: null };
  if (walk.stage !== 'ended') return { kind: 'unknown' };
  if (hasPicture(walk)) return { kind: 'whole' };
  reader.warn('jpeg-no-picture', walk.position);
  return { kind: 'unknown' };
}

/**
 * How long the file must be, bytes. A JPEG alone says so by its EOI and no sooner; a Multi-Picture index says where its
 * last picture ends (`listedEnd`, 0 without one). Null while neither has come.
 */
function announcedEnd(reader: BoundedReader, walk: JpegWalk, listedEnd: number): number | null {
  if (walk.stage === 'ended') return Math.max(walk.position, listedEnd);
  return isUnderWay(reader, walk) && listedEnd > reader.source.sizeBytes ? listedEnd : null;
}

/** Everything that has arrived was walked, and an EOI must come behind it. */
function isUnderWay(reader: BoundedReader, walk: JpegWalk): boolean {
  return walk.stage !== 'ended' && walk.stage !== 'stopped' && reader.wanted.length === 0;
}

/** Behind the segments a picture grows byte by byte, so looking again is worth it every step. */
function nextPosition(
  reader: BoundedReader,
  walk: JpegWalk,
  exif: ExifPart | null,
  pictures: readonly ByteRange[] | null,
): number | null {
  const { sizeBytes, ended } = reader.source;
  if (ended || walk.stage === 'stopped') return null;
  const ends = (pictures ?? []).map(({ offset, length }) => offset + length);
  if (exif === null && walk.exif !== null) ends.push(walk.exif.offset + walk.exif.length);
  if (walk.stage === 'segments') ends.push(walk.position + segmentHeadBytes);
  if (walk.stage !== 'ended') ends.push(sizeBytes + jpegStepBytes);
  const ahead = ends.filter((end) => end > sizeBytes);
  return ahead.length === 0 ? null : Math.min(...ahead);
}

/** The issues of two inspections of one file, each once. */
function joined(earlier: readonly Issue[], later: readonly Issue[]): Issue[] {
  const isNew = (issue: Issue): boolean =>
    !earlier.some((known) => known.code === issue.code && known.offset === issue.offset);
  return [...earlier, ...later.filter(isNew)];
}
