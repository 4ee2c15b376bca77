/**
 * A mosaic as lossless JPEG: ITU-T T.81 process 14 (SOF3), the form DNG 1.4 names for raw data (Compression 7). A row
 * is written as pairs of neighbours, two components of half the width, so that each filter colour of the row has a
 * component of its own; predictor 1 (the sample to the left); one Huffman table computed from the picture itself.
 *
 * The other predictors look at the row above, which in this layout has the other two filter colours in it.
 */
import { type HuffmanTable, huffmanTable } from './huffman-table.ts';
import { countCategories, writeScan } from './kernels/lossless-scan.ts';

export interface LosslessInput {
  /** `mosaic[row * widthPx + column]`, each below `2 ** bitsPerSample`. Read, not kept. */
  readonly mosaic: Uint16Array;
  /** Even; at most 131,070, and `heightPx` at most 65,535 (T.81 table B.2). */
  readonly widthPx: number;
  readonly heightPx: number;
  /** 2 to 16 (T.81 table B.2). */
  readonly bitsPerSample: number;
}

const marker = { startOfImage: 0xd8, endOfImage: 0xd9, frame: 0xc3, huffman: 0xc4, scan: 0xda } as const;
/** Markers and segments around the scan: 2 + 21 + 16 + 14 + 2 bytes. */
const headBytesMax = 128;
/** Categories 0 ... 16 of T.81 table H.2. */
const categories = 17;

/** A whole JPEG stream, SOI to EOI. Throws `RangeError` where the sizes do not fit each other. */
export function encodeLosslessJpeg(input: LosslessInput): Uint8Array<ArrayBuffer> {
  const { mosaic, widthPx, heightPx, bitsPerSample } = input;
  checkSizes(input);
  const firstPrediction = 2 ** (bitsPerSample - 1);
  const counts = new Uint32Array(categories);
  countCategories(mosaic, widthPx, firstPrediction, counts);
  const table = huffmanTable(counts);
  const { bits, lengths } = differenceCodes(table);
  // Each byte may be one of ones and take a second: twice the exact length always fits. Untouched pages cost nothing.
  const out = new Uint8Array(headBytesMax + 2 * scanBytes(counts, table));
  const head = header(widthPx / 2, heightPx, bitsPerSample, table);
  out.set(head);
  const end = writeScan(mosaic, widthPx, firstPrediction, bits, lengths, out, head.length);
  out.set([0xff, marker.endOfImage], end);
  return out.slice(0, end + 2);
}

function checkSizes({ mosaic, widthPx, heightPx, bitsPerSample }: LosslessInput): void {
  const fits = mosaic.length === widthPx * heightPx && mosaic.length > 0;
  const writable = widthPx % 2 === 0 && widthPx <= 131_070 && heightPx <= 65_535;
  if (fits && writable && bitsPerSample >= 2 && bitsPerSample <= 16) return;
  throw new RangeError(`no lossless JPEG of ${widthPx} x ${heightPx} x ${bitsPerSample} bits`);
}

function header(columns: number, rows: number, bitsPerSample: number, table: HuffmanTable): number[] {
  const component = (id: number): number[] => [id, 0x11, 0];
  return [
    ...[0xff, marker.startOfImage],
    ...segment(marker.frame, [
      bitsPerSample,
      ...word(rows),
      ...word(columns),
      2,
      ...component(0),
      ...component(1),
    ]),
    ...segment(marker.huffman, [0, ...table.lengthCounts, ...table.symbols]),
    // Two components, table 0 for each; predictor 1, no end, no point transform (B.2.3).
    ...segment(marker.scan, [2, 0, 0, 1, 0, 1, 0, 0]),
  ];
}

function segment(code: number, payload: readonly number[]): number[] {
  return [0xff, code, ...word(payload.length + 2), ...payload];
}

function word(value: number): [number, number] {
  return [value >> 8, value & 255];
}

/** Additional bits of a category: as many as its number, but none for 16, which is -32,768 alone (table H.2). */
function additionalBits(category: number): number {
  return category === 16 ? 0 : category;
}

function scanBytes(counts: Uint32Array, table: HuffmanTable): number {
  const bits = counts.reduce(
    (sum, count, category) => sum + count * ((table.lengths[category] ?? 0) + additionalBits(category)),
    0,
  );
  return Math.ceil(bits / 8);
}

/**
 * Code and additional bits of every difference, by the difference modulo 65,536. A negative difference's additional
 * bits are those of it less one (F.1.2.1.1).
 */
function differenceCodes(table: HuffmanTable): { readonly bits: Uint32Array; readonly lengths: Uint8Array } {
  const bits = new Uint32Array(65_536);
  const lengths = new Uint8Array(65_536);
  for (let index = 0; index < 65_536; index++) {
    const difference = (index << 16) >> 16;
    const category = 32 - Math.clz32(Math.abs(difference));
    const more = additionalBits(category);
    const low = (difference < 0 ? difference - 1 : difference) & (2 ** more - 1);
    bits[index] = (table.codes[category] ?? 0) * 2 ** more + low;
    lengths[index] = (table.lengths[category] ?? 0) + more;
  }
  return { bits, lengths };
}
