/**
 * A raw file after the Digital Negative specification 1.4.0.0 (tag numbers and rules from memory, held against
 * ExifTool's and LibRaw's reading of the result) with Exif 2.32 (CIPA DC-008).
 *
 * Order in the file: every directory, the previews from small to full size, then the mosaic, as cameras do it that
 * want to be seen early: a 1600-pixel preview is complete in the first 2 per cent of the bytes, the full-size one in
 * the first quarter.
 */
import type { RawData, RawLayout, StandInRaw } from './raw-shape.ts';
import { exifTags, jpegTags, mainTags, mosaicTags } from './raw-tags.ts';
import { directoryBytes, type Tag, writeDirectory } from './tiff-writer.ts';

const headerBytes = 8;

/** The bytes of one whole raw file. */
export function writeStandInRaw(raw: StandInRaw): Uint8Array<ArrayBuffer> {
  const layout = placePieces(raw);
  const out = new Uint8Array(layout.data + dataBytes(raw.data));
  const view = new DataView(out.buffer);
  writeHeader(view, layout.main);
  for (const [offset, tags] of directories(raw, layout)) writeDirectory(view, offset, tags);
  raw.previews.forEach((preview, index) => {
    out.set(preview.bytes, layout.previews[index] ?? 0);
  });
  if (raw.data.compression === 'none') writeMosaic(view, layout.data, raw.data.mosaic);
  else out.set(raw.data.bytes, layout.data);
  return out;
}

/** Length of the mosaic's strip. */
export function dataBytes(data: RawData): number {
  return data.compression === 'none' ? data.mosaic.length * 2 : data.bytes.length;
}

type Directory = readonly [offset: number, tags: readonly Tag[]];

function directories(raw: StandInRaw, layout: RawLayout): readonly Directory[] {
  const [first, ...others] = raw.previews;
  return [
    [layout.main, [...jpegTags(first, layout.previews[0] ?? 0), ...mainTags(raw, layout)]],
    [layout.exif, exifTags(raw.capture)],
    [layout.mosaicDirectory, mosaicTags(raw, layout.data, dataBytes(raw.data))],
    ...others.map((jpeg, index): Directory => {
      return [layout.previewDirectories[index] ?? 0, jpegTags(jpeg, layout.previews[index + 1] ?? 0)];
    }),
  ];
}

/** Sizes of directories do not depend on the offsets in them, so they are measured with zeros and then placed. */
function placePieces(raw: StandInRaw): RawLayout {
  const nowhere = raw.previews.map(() => 0);
  const unplaced = {
    main: 0,
    exif: 0,
    mosaicDirectory: 0,
    previewDirectories: nowhere.slice(1),
    previews: nowhere,
    data: 0,
  };
  let end = headerBytes;
  const place = (bytes: number): number => {
    const start = end;
    end += bytes + (bytes % 2);
    return start;
  };
  const [main = 0, exif = 0, mosaicDirectory = 0, ...previewDirectories] = directories(raw, unplaced).map(
    ([, tags]) => place(directoryBytes(tags)),
  );
  const previews = raw.previews.map(({ bytes }) => place(bytes.length));
  return { main, exif, mosaicDirectory, previewDirectories, previews, data: end };
}

function writeHeader(view: DataView, firstDirectory: number): void {
  view.setUint16(0, 0x4949, false);
  view.setUint16(2, 42, true);
  view.setUint32(4, firstDirectory, true);
}

function writeMosaic(view: DataView, offset: number, mosaic: Uint16Array): void {
  for (let index = 0; index < mosaic.length; index++) {
    view.setUint16(offset + index * 2, mosaic[index] ?? 0, true);
  }
}
