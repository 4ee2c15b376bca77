/**
 * Bytes written field by field, each with a label: what a fixture is, one can read; where a field is, one can ask, to
 * point at it or to spoil it.
 */
export class LabelledBytes {
  readonly #littleEndian: boolean;
  readonly #bytes: number[] = [];
  readonly #places = new Map<string, number>();
  readonly #pointers: {
    readonly at: number;
    readonly size: 4 | 8;
    readonly to: string;
    readonly less: number;
  }[] = [];

  constructor(littleEndian: boolean) {
    this.#littleEndian = littleEndian;
  }

  u8(label: string, ...values: readonly number[]): this {
    this.#place(label);
    this.#bytes.push(...values);
    return this;
  }

  u16(label: string, ...values: readonly number[]): this {
    this.#place(label);
    for (const value of values) this.#push(BigInt(value), 2);
    return this;
  }

  u32(label: string, ...values: readonly number[]): this {
    this.#place(label);
    for (const value of values) this.#push(BigInt(value), 4);
    return this;
  }

  u64(label: string, ...values: readonly number[]): this {
    this.#place(label);
    for (const value of values) this.#push(BigInt(value), 8);
    return this;
  }

  /** Characters as bytes, nothing added. */
  ascii(label: string, text: string): this {
    return this.u8(label, ...Array.from(text, (char) => char.charCodeAt(0)));
  }

  fill(label: string, length: number, value = 0xaa): this {
    return this.u8(label, ...Array.from({ length }, () => value));
  }

  /** A pointer to another field, which may come later; counted from the field `from` (the start by default). */
  pointer(label: string, to: string, size: 4 | 8 = 4, less = 0): this {
    this.#place(label);
    this.#pointers.push({ at: this.#bytes.length, size, to, less });
    this.#push(0n, size);
    return this;
  }

  /** Marks the place of what comes next, without a byte. */
  mark(label: string): this {
    this.#place(label);
    return this;
  }

  /** Where a field begins. */
  at(label: string): number {
    const place = this.#places.get(label);
    if (place === undefined) throw new Error(`no field is labelled ${label}`);
    return place;
  }

  build(): Uint8Array {
    const bytes = Uint8Array.from(this.#bytes);
    const view = new DataView(bytes.buffer);
    for (const { at, size, to, less } of this.#pointers) {
      if (size === 4) view.setUint32(at, this.at(to) - less, this.#littleEndian);
      else view.setBigUint64(at, BigInt(this.at(to) - less), this.#littleEndian);
    }
    return bytes;
  }

  /** The bytes with the 32-bit field `label` set to something else. */
  spoiled(label: string, value: number): Uint8Array {
    const bytes = this.build();
    new DataView(bytes.buffer).setUint32(this.at(label), value, this.#littleEndian);
    return bytes;
  }

  #place(label: string): void {
    if (this.#places.has(label)) throw new Error(`two fields are labelled ${label}`);
    this.#places.set(label, this.#bytes.length);
  }

  #push(value: bigint, size: number): void {
    for (let i = 0; i < size; i++) {
      const shift = BigInt(8 * (this.#littleEndian ? i : size - 1 - i));
      this.#bytes.push(Number((value >> shift) & 0xffn));
    }
  }
}
