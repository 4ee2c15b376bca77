import { baselineJpeg } from './jpeg-fixtures.ts';
import { LabelledBytes } from './labelled-bytes.ts';

const SHORT = 3;
const LONG = 4;
const ASCII = 2;
const RATIONAL = 5;
const BYTE = 1;

/** The previews of {@link tinyDng}, as written into it. */
export const tinyDngPreview = { widthPx: 1200, heightPx: 800 } as const;

/**
 * A DNG with what a camera's has: a reduced RGB picture of 4 x 2 in the first directory, a mosaic of 6 x 4 in two
 * strips and a JPEG preview in SubIFDs, Exif behind a pointer, and text and XMP behind the raw data. TIFF 6.0 sections 2 and 3;
 * DNG 1.4 chapter 4; Exif 2.32 section 4.6.
 */
export function tinyDng(littleEndian = true): LabelledBytes {
  const jpeg = baselineJpeg(tinyDngPreview.widthPx, tinyDngPreview.heightPx).build();
  const tiff = new LabelledBytes(littleEndian)
    .ascii('byte order', littleEndian ? 'II' : 'MM')
    .u16('magic', 42)
    .pointer('first IFD', 'IFD0');

  tiff.mark('IFD0').u16('IFD0 entries', 14);
  long(tiff, 'IFD0 NewSubfileType', 0x00fe, 1);
  long(tiff, 'IFD0 ImageWidth', 0x0100, 4);
  long(tiff, 'IFD0 ImageLength', 0x0101, 2);
  entry(tiff, 'IFD0 BitsPerSample', 0x0102, SHORT, 3).pointer('IFD0 BitsPerSample value', 'IFD0 bits');
  short(tiff, 'IFD0 Compression', 0x0103, 1);
  short(tiff, 'IFD0 PhotometricInterpretation', 0x0106, 2);
  entry(tiff, 'IFD0 Make', 0x010f, ASCII, 10).pointer('IFD0 Make value', 'make');
  entry(tiff, 'IFD0 StripOffsets', 0x0111, LONG, 1).pointer('IFD0 StripOffsets value', 'thumbnail');
  short(tiff, 'IFD0 Orientation', 0x0112, 8);
  long(tiff, 'IFD0 StripByteCounts', 0x0117, 24);
  entry(tiff, 'IFD0 SubIFDs', 0x014a, LONG, 2).pointer('IFD0 SubIFDs value', 'sub pointers');
  entry(tiff, 'IFD0 XMP', 0x02bc, BYTE, 12).pointer('IFD0 XMP value', 'xmp');
  entry(tiff, 'IFD0 ExifIFD', 0x8769, LONG, 1).pointer('IFD0 ExifIFD value', 'Exif IFD');
  entry(tiff, 'IFD0 DNGVersion', 0xc612, BYTE, 4).u8('IFD0 DNGVersion value', 1, 4, 0, 0);
  tiff.u32('IFD0 next', 0);
  tiff.u16('IFD0 bits', 8, 8, 8).ascii('make', 'Quillmere\0');
  tiff.pointer('sub pointers', 'raw IFD').pointer('sub pointer 2', 'preview IFD');

  tiff.mark('raw IFD').u16('raw entries', 11);
  long(tiff, 'raw NewSubfileType', 0x00fe, 0);
  long(tiff, 'raw ImageWidth', 0x0100, 6);
  long(tiff, 'raw ImageLength', 0x0101, 4);
  short(tiff, 'raw BitsPerSample', 0x0102, 16);
  short(tiff, 'raw PhotometricInterpretation', 0x0106, 32_803);
  entry(tiff, 'raw StripOffsets', 0x0111, LONG, 2).pointer('raw StripOffsets value', 'strip offsets');
  entry(tiff, 'raw StripByteCounts', 0x0117, LONG, 2).pointer('raw StripByteCounts value', 'strip sizes');
  entry(tiff, 'raw CFAPattern', 0x828e, BYTE, 4).u8('raw CFAPattern value', 0, 1, 1, 2);
  entry(tiff, 'raw BlackLevel', 0xc61a, SHORT, 4).pointer('raw BlackLevel value', 'black levels');
  long(tiff, 'raw WhiteLevel', 0xc61d, 16_000);
  entry(tiff, 'raw DefaultCropSize', 0xc620, SHORT, 2).u16('raw DefaultCropSize value', 5, 3);
  tiff.u32('raw next', 0);
  tiff.pointer('strip offsets', 'strip 1').pointer('strip offset 2', 'strip 2');
  tiff.u32('strip sizes', 24, 24).u16('black levels', 512, 513, 514, 515);

  tiff.mark('preview IFD').u16('preview entries', 7);
  long(tiff, 'preview NewSubfileType', 0x00fe, 1);
  long(tiff, 'preview ImageWidth', 0x0100, tinyDngPreview.widthPx);
  long(tiff, 'preview ImageLength', 0x0101, tinyDngPreview.heightPx);
  short(tiff, 'preview Compression', 0x0103, 7);
  entry(tiff, 'preview StripOffsets', 0x0111, LONG, 1).pointer('preview StripOffsets value', 'preview');
  long(tiff, 'preview StripByteCounts', 0x0117, jpeg.length);
  long(tiff, 'preview PreviewColorSpace', 0xc71a, 2);
  tiff.u32('preview next', 0);

  tiff.mark('Exif IFD').u16('Exif entries', 2);
  entry(tiff, 'Exif ExposureTime', 0x829a, RATIONAL, 1).pointer('Exif ExposureTime value', 'exposure time');
  entry(tiff, 'Exif LensModel', 0xa434, ASCII, 8).pointer('Exif LensModel value', 'lens');
  tiff.u32('exposure time', 1, 125);

  tiff
    .fill('thumbnail', 24)
    .u8('preview', ...jpeg)
    .fill('strip 1', 24, 1)
    .fill('strip 2', 24, 2);
  return tiff.ascii('lens', '60 mm x\0').ascii('xmp', '<x:xmpmeta/>').mark('end');
}

/** BigTIFF (2007): 64-bit offsets, one strip of 2 x 2 grey. */
export function tinyBigTiff(littleEndian = true): LabelledBytes {
  const tiff = new LabelledBytes(littleEndian)
    .ascii('byte order', littleEndian ? 'II' : 'MM')
    .u16('magic', 43)
    .u16('offset size', 8)
    .u16('constant', 0)
    .pointer('first IFD', 'IFD0', 8);
  tiff.mark('IFD0').u64('IFD0 entries', 4);
  const bigEntry = (label: string, tag: number, type: number, count: number): LabelledBytes =>
    tiff.u16(`${label} tag`, tag).u16(`${label} type`, type).u64(`${label} count`, count);
  bigEntry('ImageWidth', 0x0100, SHORT, 1).u16('ImageWidth value', 2, 0, 0, 0);
  bigEntry('ImageLength', 0x0101, SHORT, 1).u16('ImageLength value', 2, 0, 0, 0);
  bigEntry('StripOffsets', 0x0111, 16, 1).pointer('StripOffsets value', 'strip', 8);
  bigEntry('StripByteCounts', 0x0117, 16, 1).u64('StripByteCounts value', 4);
  return tiff.u64('IFD0 next', 0).fill('strip', 4).mark('end');
}

/** A chain of `count` directories, each without a picture, the last pointing to `lastNext` (0 ends it). */
export function chainOfIfds(count: number, lastNext: string | null = null): LabelledBytes {
  const tiff = new LabelledBytes(true)
    .ascii('byte order', 'II')
    .u16('magic', 42)
    .pointer('first IFD', 'IFD 1');
  for (let i = 1; i <= count; i++) {
    tiff.mark(`IFD ${i}`).u16(`IFD ${i} entries`, 1);
    long(tiff, `IFD ${i} NewSubfileType`, 0x00fe, 1);
    const next = i < count ? `IFD ${i + 1}` : lastNext;
    if (next === null) tiff.u32(`IFD ${i} next`, 0);
    else tiff.pointer(`IFD ${i} next`, next);
  }
  return tiff;
}

/** SubIFDs `depth` levels below the first directory. */
export function nestedIfds(depth: number): LabelledBytes {
  const tiff = new LabelledBytes(true)
    .ascii('byte order', 'II')
    .u16('magic', 42)
    .pointer('first IFD', 'level 0');
  for (let level = 0; level <= depth; level++) {
    tiff.mark(`level ${level}`).u16(`level ${level} entries`, 1);
    if (level < depth) {
      entry(tiff, `level ${level} SubIFDs`, 0x014a, LONG, 1).pointer(
        `level ${level} value`,
        `level ${level + 1}`,
      );
    } else long(tiff, `level ${level} NewSubfileType`, 0x00fe, 1);
    tiff.u32(`level ${level} next`, 0);
  }
  return tiff;
}

/** One directory with a picture in `count` strips of one byte each. */
export function manyStrips(count: number): LabelledBytes {
  const tiff = new LabelledBytes(true)
    .ascii('byte order', 'II')
    .u16('magic', 42)
    .pointer('first IFD', 'IFD0');
  tiff.mark('IFD0').u16('IFD0 entries', 2);
  entry(tiff, 'StripOffsets', 0x0111, LONG, count).pointer('StripOffsets value', 'offsets');
  entry(tiff, 'StripByteCounts', 0x0117, SHORT, count).pointer('StripByteCounts value', 'sizes');
  tiff.u32('IFD0 next', 0);
  tiff.u16('sizes', ...Array.from({ length: count }, () => 1)).mark('offsets');
  for (let i = 0; i < count; i++) tiff.pointer(`offset ${i}`, 'strips');
  return tiff.fill('strips', 1);
}

/** One directory of `count` entries. */
export function manyEntries(count: number): LabelledBytes {
  const tiff = new LabelledBytes(true)
    .ascii('byte order', 'II')
    .u16('magic', 42)
    .pointer('first IFD', 'IFD0');
  tiff.mark('IFD0').u16('IFD0 entries', count);
  for (let i = 0; i < count; i++) long(tiff, `entry ${i}`, 0x0100 + i, 1);
  return tiff.u32('IFD0 next', 0);
}

/** `count` directories that each announce a JPEG preview by JPEGInterchangeFormat. */
export function manyPreviews(count: number): LabelledBytes {
  const jpeg = baselineJpeg(160, 120).build();
  const tiff = new LabelledBytes(true)
    .ascii('byte order', 'II')
    .u16('magic', 42)
    .pointer('first IFD', 'IFD 1');
  for (let i = 1; i <= count; i++) {
    tiff.mark(`IFD ${i}`).u16(`IFD ${i} entries`, 2);
    entry(tiff, `IFD ${i} offset`, 0x0201, LONG, 1).pointer(`IFD ${i} offset value`, `preview ${i}`);
    long(tiff, `IFD ${i} length`, 0x0202, jpeg.length);
    if (i < count) tiff.pointer(`IFD ${i} next`, `IFD ${i + 1}`);
    else tiff.u32(`IFD ${i} next`, 0);
    tiff.u8(`preview ${i}`, ...jpeg);
  }
  return tiff;
}

/** One directory with a text of `length` characters. */
export function longText(length: number): LabelledBytes {
  const tiff = new LabelledBytes(true)
    .ascii('byte order', 'II')
    .u16('magic', 42)
    .pointer('first IFD', 'IFD0');
  tiff.mark('IFD0').u16('IFD0 entries', 1);
  entry(tiff, 'Make', 0x010f, ASCII, length + 1).pointer('Make value', 'text');
  return tiff.u32('IFD0 next', 0).fill('text', length, 0x61).u8('text end', 0);
}

function long(tiff: LabelledBytes, label: string, tag: number, value: number): void {
  entry(tiff, label, tag, LONG, 1).u32(`${label} value`, value);
}

/** A SHORT stands at the left of its four bytes (TIFF 6.0 section 2, "Value/Offset"). */
function short(tiff: LabelledBytes, label: string, tag: number, value: number): void {
  entry(tiff, label, tag, SHORT, 1).u16(`${label} value`, value, 0);
}

function entry(bytes: LabelledBytes, label: string, tag: number, type: number, count: number): LabelledBytes {
  return bytes.u16(`${label} tag`, tag).u16(`${label} type`, type).u32(`${label} count`, count);
}
