import type { Region } from './orientation.ts';

/** A picture of half floats, red, green, blue interleaved, as the bits of IEEE 754 binary16. */
export interface RgbHalf {
  readonly widthPx: number;
  readonly heightPx: number;
  /** widthPx x heightPx x 3. */
  readonly halves: Uint16Array<ArrayBuffer>;
}

/** What a file says of its pixels beside them; numbers are `float`, words `string` attributes. */
export type ExrNotes = Readonly<Record<string, number | string>>;

export interface ExrPicture extends RgbHalf {
  /** Where these pixels lie in the whole picture; the whole one where they are all of it. */
  readonly leftPx: number;
  readonly topPx: number;
  readonly whole: { readonly widthPx: number; readonly heightPx: number };
  readonly notes: ExrNotes;
}

/** Chromaticities of red, green, blue and white: x and y each. */
export type ExrPrimaries = readonly [number, number, number, number, number, number, number, number];

const magic = 20_000_630;
/** Of one channel among the others of a line, by name. */
const fileOrder = [2, 1, 0] as const;
const lineHeadBytes = 8;

/**
 * The bytes of an OpenEXR file, version 2: one part of scan lines, not compressed, channels B, G, R of half floats, in
 * little-endian order ("OpenEXR File Layout", Academy Software Foundation). `whole` becomes the display window, the place
 * of the pixels in it the data window.
 */
export function encodeExr(picture: ExrPicture, primaries: ExrPrimaries): Uint8Array<ArrayBuffer> {
  const { widthPx, heightPx, halves } = picture;
  if (halves.length !== widthPx * heightPx * 3) throw new RangeError('encodeExr: sizes differ');
  const head = headOf(picture, primaries);
  const lineBytes = lineHeadBytes + widthPx * 6;
  const linesAt = head.length + heightPx * 8;
  const bytes = new Uint8Array(linesAt + heightPx * lineBytes);
  const view = new DataView(bytes.buffer);
  bytes.set(head);
  for (let line = 0; line < heightPx; line++) {
    const at = linesAt + line * lineBytes;
    view.setBigUint64(head.length + line * 8, BigInt(at), true);
    view.setInt32(at, picture.topPx + line, true);
    view.setInt32(at + 4, widthPx * 6, true);
    let to = at + lineHeadBytes;
    for (const channel of fileOrder) {
      let from = line * widthPx * 3 + channel;
      for (let column = 0; column < widthPx; column++, from += 3, to += 2) {
        view.setUint16(to, halves[from] ?? 0, true);
      }
    }
  }
  return bytes;
}

function headOf(picture: ExrPicture, primaries: ExrPrimaries): Uint8Array {
  const { leftPx, topPx, whole, notes } = picture;
  const bytes: number[] = [];
  const floats = (...values: readonly number[]): number[] => [
    ...new Uint8Array(Float32Array.from(values).buffer),
  ];
  const ints = (...values: readonly number[]): number[] => [
    ...new Uint8Array(Int32Array.from(values).buffer),
  ];
  const text = (value: string): number[] => [...value].map((letter) => letter.charCodeAt(0) & 0x7f);
  const attribute = (name: string, type: string, value: readonly number[]): void => {
    bytes.push(...text(name), 0, ...text(type), 0, ...ints(value.length), ...value);
  };
  const box = ({ leftPx: left, topPx: top, widthPx, heightPx }: Region): number[] =>
    ints(left, top, left + widthPx - 1, top + heightPx - 1);
  bytes.push(...ints(magic, 2));
  // Name, type (1: half), perceptually linear, reserved, sampling across and down; alphabetical.
  const channel = (name: string): number[] => [...text(name), 0, ...ints(1), 0, 0, 0, 0, ...ints(1, 1)];
  attribute('channels', 'chlist', [...['B', 'G', 'R'].flatMap(channel), 0]);
  attribute('chromaticities', 'chromaticities', floats(...primaries));
  attribute('compression', 'compression', [0]);
  attribute('dataWindow', 'box2i', box({ ...picture, leftPx, topPx }));
  attribute('displayWindow', 'box2i', box({ leftPx: 0, topPx: 0, ...whole }));
  attribute('lineOrder', 'lineOrder', [0]);
  attribute('pixelAspectRatio', 'float', floats(1));
  attribute('screenWindowCenter', 'v2f', floats(0, 0));
  attribute('screenWindowWidth', 'float', floats(1));
  for (const [name, value] of Object.entries(notes)) {
    if (typeof value === 'number') attribute(name, 'float', floats(value));
    else attribute(name, 'string', text(value));
  }
  bytes.push(0);
  return Uint8Array.from(bytes);
}
