import { LabelledBytes } from './labelled-bytes.ts';

/**
 * JPEG markers in the order of ITU-T T.81 figure B.2, with the smallest tables that keep the structure true. The
 * entropy-coded bytes mean nothing: these fixtures are for parsers, not for decoders.
 */
export function baselineJpeg(widthPx: number, heightPx: number): LabelledBytes {
  const jpeg = new LabelledBytes(false).u16('SOI', 0xffd8);
  frame(jpeg, 0xffc0, widthPx, heightPx);
  scan(jpeg, 'scan 1');
  return jpeg.u16('EOI', 0xffd9);
}

/** Two scans and a progressive frame. */
export function progressiveJpeg(widthPx: number, heightPx: number): LabelledBytes {
  const jpeg = new LabelledBytes(false).u16('SOI', 0xffd8);
  frame(jpeg, 0xffc2, widthPx, heightPx);
  scan(jpeg, 'scan 1');
  jpeg.u16('DHT between scans', 0xffc4).u16('DHT length', 3).u8('DHT table', 0x00);
  scan(jpeg, 'scan 2');
  return jpeg.u16('EOI', 0xffd9);
}

/**
 * A baseline JPEG with a JFIF segment, an Exif segment (orientation, and a thumbnail that is itself a JPEG), a
 * Multi-Picture index (CIPA DC-007-2009), and behind its EOI the second picture that this lists.
 */
export function cameraJpeg(widthPx: number, heightPx: number): LabelledBytes {
  const jpeg = new LabelledBytes(false).u16('SOI', 0xffd8);
  jpeg.u16('APP0', 0xffe0).u16('APP0 length', 16).ascii('JFIF', 'JFIF\0').fill('JFIF content', 9, 1);
  exifSegment(jpeg);
  mpSegment(jpeg);
  frame(jpeg, 0xffc0, widthPx, heightPx);
  scan(jpeg, 'scan 1');
  return jpeg.u16('EOI', 0xffd9).u8('second picture', ...secondPicture);
}

const thumbnail = baselineJpeg(160, 120).build();
const secondPicture = baselineJpeg(1920, 1080).build();

/** Exif 2.32 sections 4.5.4 and 4.7.2. */
function exifSegment(jpeg: LabelledBytes): void {
  jpeg
    .u16('APP1', 0xffe1)
    .u16('APP1 length', 2 + 6 + 8 + (2 + 12 + 4) + (2 + 24 + 4) + thumbnail.length)
    .ascii('Exif signature', 'Exif\0\0')
    .mark('Exif header');
  const headerAt = jpeg.at('Exif header');
  jpeg
    .ascii('TIFF byte order', 'MM')
    .u16('TIFF magic', 42)
    .pointer('TIFF first IFD', 'IFD0 count', 4, headerAt)
    .u16('IFD0 count', 1);
  entry(jpeg, 'IFD0 Orientation', 0x0112, 3, 1).u16('IFD0 Orientation value', 6, 0);
  jpeg.pointer('IFD0 next', 'IFD1 count', 4, headerAt).u16('IFD1 count', 2);
  entry(jpeg, 'IFD1 JPEGInterchangeFormat', 0x0201, 4, 1).pointer('IFD1 offset', 'thumbnail', 4, headerAt);
  entry(jpeg, 'IFD1 JPEGInterchangeFormatLength', 0x0202, 4, 1).u32('IFD1 length', thumbnail.length);
  jpeg.u32('IFD1 next', 0).u8('thumbnail', ...thumbnail);
}

/** CIPA DC-007-2009 sections 5.2.1 and 5.2.3: the index of a file of two pictures. */
function mpSegment(jpeg: LabelledBytes): void {
  jpeg
    .u16('APP2', 0xffe2)
    .u16('APP2 length', 2 + 4 + 8 + (2 + 12 + 4) + 32)
    .ascii('MP signature', 'MPF\0')
    .mark('MP header');
  const headerAt = jpeg.at('MP header');
  jpeg
    .ascii('MP byte order', 'MM')
    .u16('MP magic', 42)
    .pointer('MP first IFD', 'MP count', 4, headerAt)
    .u16('MP count', 1);
  entry(jpeg, 'MPEntry', 0xb002, 7, 32).pointer('MPEntry value', 'MP 1 attribute', 4, headerAt);
  jpeg.u32('MP next', 0);
  jpeg.u32('MP 1 attribute', 0x030000).pointer('MP 1 size', 'second picture').u32('MP 1 offset', 0);
  jpeg.u16('MP 1 dependents', 0, 0);
  jpeg.u32('MP 2 attribute', 0x010002).u32('MP 2 size', secondPicture.length);
  jpeg.pointer('MP 2 offset', 'second picture', 4, headerAt).u16('MP 2 dependents', 0, 0);
}

/** T.81 B.2.2. */
function frame(jpeg: LabelledBytes, marker: number, widthPx: number, heightPx: number): void {
  jpeg
    .u16('SOF', marker)
    .u16('SOF length', 8 + 3)
    .u8('SOF precision', 8)
    .u16('SOF lines', heightPx)
    .u16('SOF samples per line', widthPx)
    .u8('SOF components', 1)
    .u8('SOF component 1', 1, 0x11, 0);
}

/** T.81 B.2.3, then entropy-coded data with what may look like a marker and is none. */
function scan(jpeg: LabelledBytes, name: string): void {
  jpeg
    .u16(`${name} SOS`, 0xffda)
    .u16(`${name} SOS length`, 6 + 2)
    .u8(`${name} SOS components`, 1, 1, 0x00)
    .u8(`${name} SOS spectral selection`, 0, 63, 0)
    .u8(`${name} entropy`, 0x12, 0x34)
    .u8(`${name} stuffed zero`, 0xff, 0x00)
    .u8(`${name} restart marker`, 0xff, 0xd0)
    .u8(`${name} entropy after restart`, 0x56, 0x78)
    .u8(`${name} fill byte`, 0xff);
}

function entry(bytes: LabelledBytes, label: string, tag: number, type: number, count: number): LabelledBytes {
  return bytes.u16(`${label} tag`, tag).u16(`${label} type`, type).u32(`${label} count`, count);
}
