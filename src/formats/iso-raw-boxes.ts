import type { BoundedReader } from './bounded-reader.ts';
import type { IsoBox, IsoBoxes } from './iso-box.ts';
import { jpegPreviewAt } from './jpeg-preview.ts';
import { readPart } from './part-reader.ts';
import { joinTags, noTags, type PictureTags, pictureTagsOf, type TagDirectory } from './picture-tags.ts';
import type { Preview } from './preview.ts';
import type { PixelSize } from './structure-inspection.ts';
import { tag } from './tag.ts';
import { parseTiffHeader, tiffHeaderBytesMax } from './tiff-header.ts';
import { parseIfd, pixelsOf } from './tiff-ifd.ts';
import { TiffStructure } from './tiff-structure.ts';

/**
 * What a raw file keeps in `uuid` boxes beside the standard's. No standard names it: the layout is read off the head of a
 * real file, except where a comment says otherwise.
 */

/** The extended type of the box in the movie box that holds tags, thumbnail and index. */
const cameraUuid = '85c0b687820f11e08111f4ce462b6a48';

/** The extended type of the box of the file that holds the screen-size preview. */
const previewUuid = 'eaf42b5e1c984b88b9fbb7dc406e4d16';

/** Version and one more figure before the boxes in {@link previewUuid}. */
const previewHeadBytes = 8;

/** A preview box holds sizes, then the JPEG. */
const previewJpegOffset = 16;

/**
 * The index: a count, then for each box of the file a number (32 bits), offset and size (64 bits each); after a comment
 * in the box table of ExifTool 12.57.
 */
const indexHeadBytes = 4;
const indexEntryBytes = 20;

/** What the camera's own boxes say. */
export interface CameraBoxes {
  readonly tags: PictureTags;
  /** The full picture, pixels; null where nobody says, or not yet. */
  readonly size: PixelSize | null;
  readonly previews: readonly Preview[];
  /** The index of the boxes of the file was read, so that one that is missing at the end is missed. */
  readonly hasIndex: boolean;
}

/** Reads the camera's boxes: one within the movie box, one of the file. */
export function cameraBoxes(
  boxes: IsoBoxes,
  ofFile: readonly IsoBox[],
  movie: readonly IsoBox[],
): CameraBoxes {
  const { reader } = boxes;
  const inside = boxes.in(movie.find(({ uuid }) => uuid === cameraUuid));
  const shown = ofFile.find(({ uuid }) => uuid === previewUuid);
  const inShown = shown === undefined ? [] : boxes.within(shown.bodyOffset + previewHeadBytes, shown.end);
  const box = (type: string): IsoBox | undefined =>
    [...inside, ...inShown].find((candidate) => candidate.type === type);
  const main = directoryIn(reader, box('CMT1'), mainPart);
  const exif = directoryIn(reader, box('CMT2'), exifPart);
  const tags = joinTags(exif?.tags ?? noTags, main?.tags ?? noTags);
  const colourSpace = tags.colorSpace === 1 ? 'srgb' : null;
  return {
    tags,
    size: exif?.size ?? main?.size ?? null,
    previews: [
      previewIn(reader, box('THMB'), { sizeOffset: 4, lengthOffset: 8 }, colourSpace),
      previewIn(reader, box('PRVW'), { sizeOffset: 6, lengthOffset: 12 }, colourSpace),
    ].filter((preview) => preview !== null),
    hasIndex: claimIndex(reader, box('CTBO')),
  };
}

interface TagPart {
  readonly tags: PictureTags;
  readonly size: PixelSize | null;
}

function mainPart(first: TagDirectory): TagPart {
  return {
    tags: pictureTagsOf(first, { ...first, ifd: undefined }, undefined),
    size: sizeIn(first, tag.ImageWidth, tag.ImageLength),
  };
}

function exifPart(exif: TagDirectory): TagPart {
  return {
    tags: pictureTagsOf({ ...exif, ifd: undefined }, exif, undefined),
    size: sizeIn(exif, tag.PixelXDimension, tag.PixelYDimension),
  };
}

function sizeIn({ tiff, ifd }: TagDirectory, widthTag: number, heightTag: number): PixelSize | null {
  const widthPx = pixelsOf(tiff, ifd, widthTag);
  const heightPx = pixelsOf(tiff, ifd, heightTag);
  return widthPx === undefined || heightPx === undefined ? null : { widthPx, heightPx };
}

/** A box whose content is a TIFF structure of one directory; null while it is not there whole and loaded. */
function directoryIn(
  reader: BoundedReader,
  box: IsoBox | undefined,
  read: (first: TagDirectory) => TagPart,
): TagPart | null {
  const part = box === undefined ? null : { offset: box.bodyOffset, length: box.end - box.bodyOffset };
  return readPart(reader, part, (inner, { offset, length }) => {
    const head = inner.peek(offset, Math.min(tiffHeaderBytesMax, length));
    const header = head === null ? null : parseTiffHeader(head);
    if (header === null) return { tags: noTags, size: null };
    const tiff = new TiffStructure(header, inner, offset, offset + length);
    return read({ tiff, ifd: parseIfd(tiff, header.firstIfdOffset, 'main') ?? undefined });
  });
}

/** Where a preview box says how large its picture is and how many bytes the JPEG has. */
interface PreviewFields {
  readonly sizeOffset: number;
  readonly lengthOffset: number;
}

function previewIn(
  reader: BoundedReader,
  box: IsoBox | undefined,
  { sizeOffset, lengthOffset }: PreviewFields,
  colourSpace: Preview['colourSpace'],
): Preview | null {
  if (box === undefined) return null;
  const offset = box.bodyOffset + previewJpegOffset;
  const head = offset > box.end ? null : reader.take(box.bodyOffset, previewJpegOffset);
  if (head === null) return null;
  const view = new DataView(head.buffer, head.byteOffset, head.byteLength);
  const length = view.getUint32(lengthOffset);
  if (length === 0 || offset + length > box.end) {
    reader.warn('claim-past-segment', box.bodyOffset);
    return null;
  }
  const announced = { widthPx: view.getUint16(sizeOffset), heightPx: view.getUint16(sizeOffset + 2) };
  return jpegPreviewAt(reader, { offset, length }, announced, colourSpace);
}

/** Claims every box of the file that the index lists; false where there is no index, or none at hand. */
function claimIndex(reader: BoundedReader, box: IsoBox | undefined): boolean {
  const head = box === undefined ? null : reader.take(box.bodyOffset, indexHeadBytes);
  if (box === undefined || head === null) return false;
  const count = viewOf(head).getUint32(0);
  if (count > reader.limits.boxesMax || box.bodyOffset + indexHeadBytes + count * indexEntryBytes > box.end) {
    reader.doubt('pieces-unclear', box.bodyOffset);
    return false;
  }
  const entries = reader.take(box.bodyOffset + indexHeadBytes, count * indexEntryBytes);
  if (entries === null) return false;
  for (let at = 0; at < entries.length; at += indexEntryBytes) {
    const offset = viewOf(entries).getBigUint64(at + 4);
    const end = Number(offset + viewOf(entries).getBigUint64(at + 12));
    if (end <= Number.MAX_SAFE_INTEGER) reader.expectEnd(end);
    else reader.doubt('claim-past-format', box.bodyOffset);
  }
  return true;
}

function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}
