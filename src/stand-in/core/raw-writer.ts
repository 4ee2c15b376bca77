/**
 * An uncompressed raw file after the Digital Negative specification 1.4.0.0 (tag numbers and rules from memory, held
 * against ExifTool's and LibRaw's reading of the result) with Exif 2.32 (CIPA DC-008).
 *
 * Order in the file: every directory, the thumbnail, the preview, then the mosaic, as cameras do it that want to be
 * seen early: with a 1500-pixel preview the first view is complete in the first 2 per cent of the bytes.
 */
import type { RawLayout, StandInRaw } from './raw-shape.ts';
import { captureTags, mainTags, mosaicTags, previewTags, thumbnailTags } from './raw-tags.ts';
import { directoryBytes, type Tag, writeDirectory } from './tiff-writer.ts';

const headerBytes = 8;

/** The bytes of one whole raw file. */
export function writeStandInRaw(raw: StandInRaw): Uint8Array<ArrayBuffer> {
  const layout = placePieces(raw);
  const out = new Uint8Array(layout.mosaic + raw.mosaic.length * 2);
  const view = new DataView(out.buffer);
  writeHeader(view, layout.main);
  for (const [offset, tags] of directories(raw, layout)) writeDirectory(view, offset, tags);
  out.set(raw.thumbnail.bytes, layout.thumbnail);
  out.set(raw.preview.bytes, layout.preview);
  writeMosaic(view, layout.mosaic, raw.mosaic);
  return out;
}

function directories(raw: StandInRaw, layout: RawLayout): readonly (readonly [number, readonly Tag[]])[] {
  return [
    [layout.main, [...thumbnailTags(raw, layout), ...mainTags(raw, layout)]],
    [layout.capture, captureTags(raw)],
    [layout.previewDirectory, previewTags(raw, layout)],
    [layout.mosaicDirectory, mosaicTags(raw, layout)],
  ];
}

/** Sizes of directories do not depend on the offsets in them, so they are measured with zeros and then placed. */
function placePieces(raw: StandInRaw): RawLayout {
  const nowhere = {
    main: 0,
    capture: 0,
    previewDirectory: 0,
    mosaicDirectory: 0,
    thumbnail: 0,
    preview: 0,
    mosaic: 0,
  };
  const bytes = directories(raw, nowhere).map(([, tags]) => directoryBytes(tags));
  const starts = [headerBytes];
  for (const size of bytes) starts.push((starts.at(-1) ?? 0) + size);
  const [main = 0, capture = 0, previewDirectory = 0, mosaicDirectory = 0, thumbnail = 0] = starts;
  const preview = even(thumbnail + raw.thumbnail.bytes.length);
  const mosaic = even(preview + raw.preview.bytes.length);
  return { main, capture, previewDirectory, mosaicDirectory, thumbnail, preview, mosaic };
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

function even(offset: number): number {
  return offset + (offset % 2);
}
