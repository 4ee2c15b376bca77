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

/** A baseline JPEG with an Exif segment: orientation, and a thumbnail that is itself a JPEG. */
export function exifJpeg(widthPx: number, heightPx: number): LabelledBytes {
  const thumbnail = baselineJpeg(160, 120).build();
  const jpeg = new LabelledBytes(false).u16('SOI', 0xffd8);
  const headerAt = 12;
  jpeg
    .u16('APP1', 0xffe1)
    .u16('APP1 length', 2 + 6 + 8 + (2 + 12 + 4) + (2 + 24 + 4) + thumbnail.length)
    .ascii('Exif signature', 'Exif\0\0')
    .ascii('TIFF byte order', 'MM')
    .u16('TIFF magic', 42)
    .pointer('TIFF first IFD', 'IFD0 count', 4, headerAt)
    .u16('IFD0 count', 1);
  entry(jpeg, 'IFD0 Orientation', 0x0112, 3, 1).u16('IFD0 Orientation value', 6, 0);
  jpeg.pointer('IFD0 next', 'IFD1 count', 4, headerAt).u16('IFD1 count', 2);
  entry(jpeg, 'IFD1 JPEGInterchangeFormat', 0x0201, 4, 1).pointer('IFD1 offset', 'thumbnail', 4, headerAt);
  entry(jpeg, 'IFD1 JPEGInterchangeFormatLength', 0x0202, 4, 1).u32('IFD1 length', thumbnail.length);
  jpeg.u32('IFD1 next', 0).u8('thumbnail', ...thumbnail);
  frame(jpeg, 0xffc0, widthPx, heightPx);
  scan(jpeg, 'scan 1');
  return jpeg.u16('EOI', 0xffd9);
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
