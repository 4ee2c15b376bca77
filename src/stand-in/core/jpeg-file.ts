/**
 * A camera's JPEG file: Exif 2.32 (CIPA DC-008) in an APP1 segment behind SOI, with the directories a DCF basic file
 * has (DC-009): picture, Exif, interoperability and thumbnail.
 */
import { cameraMake, cameraModel } from './camera-model.ts';
import { type Capture, exifDateTime } from './capture.ts';
import type { EmbeddedJpeg } from './raw-shape.ts';
import { exifTags } from './raw-tags.ts';
import {
  asciiTag,
  directoryBytes,
  longTag,
  opaqueTag,
  rationalTag,
  shortTag,
  type Tag,
  writeDirectory,
} from './tiff-writer.ts';

export interface JpegFile {
  /** The picture as an encoder leaves it; its own APP0 segment (JFIF) is left out. */
  readonly picture: EmbeddedJpeg;
  /** 160 x 120, as DCF asks for. */
  readonly thumbnail: EmbeddedJpeg;
  readonly capture: Capture;
}

/** `Exif`, NUL, NUL (Exif 2.32 section 4.7.2). */
const exifMark = [0x45, 0x78, 0x69, 0x66, 0, 0];
/** A segment's length has 16 bits and counts itself (T.81 B.1.1.4). */
const segmentBytesMax = 65_535;
const headerBytes = 8;

/** The bytes of the whole file. Throws `RangeError` where the thumbnail is too large for one segment. */
export function writeJpegFile(file: JpegFile): Uint8Array<ArrayBuffer> {
  const exif = exifBlock(file);
  const length = 2 + exifMark.length + exif.length;
  if (length > segmentBytesMax) throw new RangeError(`Exif of ${length} bytes is too long for one segment`);
  const picture = file.picture.bytes.subarray(afterApp0(file.picture.bytes));
  const out = new Uint8Array(4 + length + picture.length);
  out.set([0xff, 0xd8, 0xff, 0xe1, length >> 8, length & 255, ...exifMark]);
  out.set(exif, 6 + exifMark.length);
  out.set(picture, 4 + length);
  return out;
}

/** Where a JPEG goes on behind SOI and, where there is one, APP0. */
function afterApp0(bytes: Uint8Array): number {
  const hasApp0 = bytes[2] === 0xff && bytes[3] === 0xe0;
  return hasApp0 ? 4 + (bytes[4] ?? 0) * 256 + (bytes[5] ?? 0) : 2;
}

interface Places {
  readonly exif: number;
  readonly interoperability: number;
  readonly thumbnailDirectory: number;
  readonly thumbnail: number;
}

/** A little TIFF file of four directories and the thumbnail. */
function exifBlock(file: JpegFile): Uint8Array {
  const unplaced = { exif: 0, interoperability: 0, thumbnailDirectory: 0, thumbnail: 0 };
  const [main = 0, exif = 0, interoperability = 0, last = 0] = directories(file, unplaced).map(
    directoryBytes,
  );
  const places: Places = {
    exif: headerBytes + main,
    interoperability: headerBytes + main + exif,
    thumbnailDirectory: headerBytes + main + exif + interoperability,
    thumbnail: headerBytes + main + exif + interoperability + last,
  };
  const out = new Uint8Array(places.thumbnail + file.thumbnail.bytes.length);
  const view = new DataView(out.buffer);
  view.setUint16(0, 0x4949, false);
  view.setUint16(2, 42, true);
  view.setUint32(4, headerBytes, true);
  const [mainFields = [], exifFields = [], interFields = [], lastFields = []] = directories(file, places);
  writeDirectory(view, headerBytes, mainFields, places.thumbnailDirectory);
  writeDirectory(view, places.exif, exifFields);
  writeDirectory(view, places.interoperability, interFields);
  writeDirectory(view, places.thumbnailDirectory, lastFields);
  out.set(file.thumbnail.bytes, places.thumbnail);
  return out;
}

function directories(file: JpegFile, places: Places): readonly (readonly Tag[])[] {
  return [
    mainFields(file, places),
    exifFields(file, places),
    [
      asciiTag(0x0001, 'R98'), // InteroperabilityIndex: a DCF basic file
      opaqueTag(0x0002, 0x30, 0x31, 0x30, 0x30), // InteroperabilityVersion 0100
    ],
    thumbnailFields(file, places),
  ];
}

function mainFields({ capture }: JpegFile, places: Places): Tag[] {
  return [
    asciiTag(0x010f, cameraMake), // Make
    asciiTag(0x0110, cameraModel), // Model
    shortTag(0x0112, capture.orientation), // Orientation
    ...resolution,
    asciiTag(0x0131, 'Setside stand-in'), // Software
    asciiTag(0x0132, exifDateTime(capture.shutter)), // DateTime
    shortTag(0x0213, 1), // YCbCrPositioning: centred
    longTag(0x8769, places.exif), // ExifIFD
  ];
}

function exifFields({ capture, picture }: JpegFile, places: Places): Tag[] {
  return [
    ...exifTags(capture),
    opaqueTag(0x9101, 1, 2, 3, 0), // ComponentsConfiguration: Y, Cb, Cr
    opaqueTag(0xa000, 0x30, 0x31, 0x30, 0x30), // FlashpixVersion 0100
    shortTag(0xa001, 1), // ColorSpace: sRGB
    longTag(0xa002, picture.widthPx), // PixelXDimension
    longTag(0xa003, picture.heightPx), // PixelYDimension
    longTag(0xa005, places.interoperability), // InteroperabilityIFD
  ];
}

function thumbnailFields({ thumbnail }: JpegFile, places: Places): Tag[] {
  return [
    shortTag(0x0103, 6), // Compression: JPEG, as Exif numbers it
    ...resolution,
    longTag(0x0201, places.thumbnail), // JPEGInterchangeFormat
    longTag(0x0202, thumbnail.bytes.length), // JPEGInterchangeFormatLength
  ];
}

/** Mandatory in Exif, and without a meaning before anything is printed: 72 to the inch. */
const resolution: readonly Tag[] = [
  rationalTag(0x011a, 72, 1), // XResolution
  rationalTag(0x011b, 72, 1), // YResolution
  shortTag(0x0128, 2), // ResolutionUnit: inch
];
