/** What differs from the form in which DNG stores a mosaic: two components, each row as pairs of neighbours, 16 bits. */
export interface LosslessForm {
  readonly components?: 1 | 2;
  readonly precision?: number;
  /** 2 gives the second component a Huffman table of its own. */
  readonly tables?: 1 | 2;
}

/**
 * Lossless JPEG (ITU-T T.81, annex H): process SOF3, predictor 1. Written here, so that a decoder's work can be tested without
 * a camera.
 */
export function encodeLosslessJpeg(
  values: Uint16Array,
  widthPx: number,
  heightPx: number,
  { components = 2, precision = 16, tables = 1 }: LosslessForm = {},
): Uint8Array<ArrayBuffer> {
  const out = new BitWriter(values.length * 6 + 1024);
  const used = [tableOf(codeLengths), tableOf(otherLengths)].slice(0, tables);
  const ids = Array.from({ length: components }, (_, index) => index);
  const tableFor = (component: number): number => Math.min(component, tables - 1);
  out.marker(0xd8);
  const frame = ids.flatMap((id) => [id, 0x11, 0]);
  out.segment(0xc3, [precision, ...word(heightPx), ...word(widthPx / components), components, ...frame]);
  for (const [index, table] of used.entries()) out.segment(0xc4, [index, ...table.written]);
  out.segment(0xda, [components, ...ids.flatMap((id) => [id, tableFor(id) << 4]), 1, 0, 0]);
  for (let row = 0; row < heightPx; row++) {
    for (let column = 0; column < widthPx; column++) {
      // H.1.2.1: from the left; a row's first samples from those above, the picture's first from half the range.
      const at = row * widthPx + column;
      const above = row === 0 ? 2 ** (precision - 1) : (values[at - widthPx] ?? 0);
      const predicted = column < components ? above : (values[at - components] ?? 0);
      const { codes, lengths } = used[tableFor(column % components)] ?? tableOf(codeLengths);
      writeDifference(out, codes, lengths, ((values[at] ?? 0) - predicted) | 0);
    }
  }
  out.flush();
  out.marker(0xd9);
  return out.bytes.slice(0, out.length);
}

/**
 * Length of the Huffman code of each category of differences (H.1.2.2), 0 … 16. One fixed table that suits noisy 14-bit
 * photographs; its Kraft sum is 0.89, so no code is all ones (C.2).
 */
const codeLengths: readonly number[] = [5, 5, 5, 4, 3, 3, 3, 3, 3, 4, 5, 7, 8, 9, 10, 11, 12];

/** One that suits nothing: large differences have short codes, small ones long codes, up to the longest there may be. */
const otherLengths: readonly number[] = [16, 16, 15, 14, 13, 12, 11, 10, 9, 8, 7, 6, 5, 4, 3, 3, 2];

interface CodeTable {
  /** B.2.4.2: counts by length, and the categories in the order of their codes. */
  readonly written: readonly number[];
  readonly codes: readonly number[];
  readonly lengths: readonly number[];
}

/** C.2: codes count up, and are shifted left where the length grows. */
function tableOf(lengths: readonly number[]): CodeTable {
  const categories = lengths
    .map((_, category) => category)
    .sort((a, b) => (lengths[a] ?? 0) - (lengths[b] ?? 0) || a - b);
  const counts = Array.from(
    { length: 16 },
    (_, index) => lengths.filter((length) => length === index + 1).length,
  );
  const codes: number[] = [];
  let code = 0;
  let last = lengths[categories[0] ?? 0] ?? 0;
  for (const category of categories) {
    const length = lengths[category] ?? 0;
    code <<= length - last;
    last = length;
    codes[category] = code++;
  }
  return { written: [...counts, ...categories], codes, lengths };
}

/** H.1.2.2: the category by its code, then as many low bits; a negative difference less one. Modulo 65,536. */
function writeDifference(
  out: BitWriter,
  codes: readonly number[],
  lengths: readonly number[],
  difference: number,
): void {
  const wrapped = (difference << 16) >> 16;
  const category = 32 - Math.clz32(Math.abs(wrapped));
  out.write(codes[category] ?? 0, lengths[category] ?? 0);
  if (category > 0 && category < 16) {
    out.write((wrapped > 0 ? wrapped : wrapped - 1) & ((1 << category) - 1), category);
  }
}

function word(value: number): readonly [number, number] {
  return [value >> 8, value & 255];
}

class BitWriter {
  readonly bytes: Uint8Array<ArrayBuffer>;
  length = 0;
  #held = 0;
  #heldBits = 0;

  constructor(bytesMax: number) {
    this.bytes = new Uint8Array(bytesMax);
  }

  marker(code: number): void {
    this.bytes[this.length++] = 0xff;
    this.bytes[this.length++] = code;
  }

  segment(code: number, payload: readonly number[]): void {
    this.marker(code);
    for (const byte of [...word(payload.length + 2), ...payload]) this.bytes[this.length++] = byte;
  }

  /** At most 16 bits at a time. */
  write(value: number, bits: number): void {
    this.#held = (this.#held << bits) | value;
    this.#heldBits += bits;
    while (this.#heldBits >= 8) {
      this.#heldBits -= 8;
      const byte = (this.#held >> this.#heldBits) & 255;
      this.bytes[this.length++] = byte;
      if (byte === 0xff) this.bytes[this.length++] = 0; // F.1.2.3: a zero is stuffed
    }
    this.#held &= (1 << this.#heldBits) - 1;
  }

  /** F.1.2.3: the last byte is filled with ones. */
  flush(): void {
    if (this.#heldBits > 0) this.write((1 << (8 - this.#heldBits)) - 1, 8 - this.#heldBits);
  }
}
