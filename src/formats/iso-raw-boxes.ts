import type { BoundedReader } from './bounded-reader.ts';
import type { IsoBox, IsoBoxes } from './iso-box.ts';
import { type AnnouncedSize, jpegPreviewAt } from './jpeg-preview.ts';
import { readPart } from './part-reader.ts';
import { noTags, type PictureTags, pictureTagsOf, type TagDirectory } from './picture-tags.ts';
import type { Preview } from './preview.ts';
import { tag } from './tag.ts';
import { parseTiffHeader, tiffHeaderBytesMax } from './tiff-header.ts';
import { parseIfd, pixelsOf } from './tiff-ifd.ts';
import { TiffStructure } from './tiff-structure.ts';

/**
 * Boxes that a raw file keeps in `uuid` boxes beside the standard's. No standard names them: their layout is that of a
 * real file's head, and of the table of ExifTool 12.57 where a comment says so.
 */

/** The extended type of the box in the movie box that holds tags, thumbnail and index. */
const cameraUuid = '85c0b687820f11e08111f4ce462b6a48';

/** The extended type of the box of the file that holds the screen-size preview. */
const previewUuid = 'eaf42b5e1c984b88b9fbb7dc406e4d16';

/** Version and one more figure before the boxes in {@link previewUuid}. */
const previewHeadBytes = 8;

/** A preview box: sizes, then the JPEG. */
const jpegOffset = 16;

/** Entry of the index: number (32 bits), offset and size (64 bits each). ExifTool 12.57, table of Canon boxes. */
const indexEntryBytes = 20;

/** What the camera's own boxes say. */
export interface CameraBoxes {
  readonly tags: PictureTags;
  /** The full picture, pixels; null where nobody says, or not yet. */
  readonly size: AnnouncedSize | null;
  readonly previews: readonly Preview[];
  /** The index of the boxes of the file was read, so that one that is missing at the end is missed. */
  readonly hasIndex: boolean;
}

/** Reads the camera's boxes: one within the movie box, one of the file. */
export function cameraBoxes(boxes: IsoBoxes, ofFile: readonly IsoBox[], movie: readonly IsoBox[]): CameraBoxes {
  const { reader } = boxes;
  const inside = boxes.in(movie.find(({ uuid }) => uuid === cameraUuid));
  const shown = ofFile.find(({ uuid }) => uuid === previewUuid);
  const inShown = shown === undefined ? [] : boxes.within(shown.bodyOffset + previewHeadBytes, shown.end);
  const box = (type: string): IsoBox | undefined =>
    [...inside, ...inShown].find((candidate) => candidate.type === type);
  const hasIndex = claimIndex(reader, box('CTBO'));
  const main = directoryIn(reader, box('CMT1'), (first) => ({
    tags: pictureTagsOf(first, { ...first, ifd: undefined }, undefined),
    size: sizeOrNull(first, tag.ImageWidth, tag.ImageLength),
  }));
  const exif = directoryIn(reader, box('CMT2'), (first) => ({
    tags: pictureTagsOf({ ...first, ifd: undefined }, first, undefined),
    size: sizeOrNull(first, tag.PixelXDimension, tag.PixelYDimension),
  }));
  const tags = main === null && exif === null ? noTags : joinTags(exif?.tags ?? noTags, main?.tags ?? noTags);
  const colourSpace = tags.colorSpace === 1 ? 'srgb' : null;
  const previews = [
    previewIn(reader, box('THMB'), thumbnailFields, colourSpace),
    previewIn(reader, box('PRVW'), previewFields, colourSpace),
  ].filter((preview) => preview !== null);
  return { tags, size: exif?.size ?? main?.size ?? null, previews, hasIndex };
}
