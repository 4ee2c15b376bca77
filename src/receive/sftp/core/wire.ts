/**
 * Numbers and strings as SFTP writes them (RFC 4251 section 5; draft-ietf-secsh-filexfer-02 section 3): big-endian,
 * a string is its length and its bytes.
 */

/** Reads fields one after another. Past the end it gives zeros and remembers that something was missing. */
export class WireReader {
  readonly #bytes: Uint8Array;
  readonly #view: DataView;
  #at = 0;
  #isShort = false;

  constructor(bytes: Uint8Array) {
    this.#bytes = bytes;
    this.#view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  }

  /** Whether a field reached past the end: then nothing that was read may be believed. */
  get isShort(): boolean {
    return this.#isShort;
  }

  get leftBytes(): number {
    return this.#bytes.length - this.#at;
  }

  get at(): number {
    return this.#at;
  }

  uint8(): number {
    return this.#has(1) ? this.#view.getUint8(this.#pass(1)) : 0;
  }

  uint32(): number {
    return this.#has(4) ? this.#view.getUint32(this.#pass(4)) : 0;
  }

  /** Exact up to 2^53; beyond, as near as a number comes. */
  uint64(): number {
    const high = this.uint32();
    return high * 2 ** 32 + this.uint32();
  }

  /** Aliases the packet. */
  string(): Uint8Array {
    const length = this.uint32();
    if (!this.#has(length)) return new Uint8Array(0);
    const start = this.#pass(length);
    return this.#bytes.subarray(start, start + length);
  }

  #has(bytes: number): boolean {
    if (this.#isShort || bytes > this.leftBytes) this.#isShort = true;
    return !this.#isShort;
  }

  #pass(bytes: number): number {
    const start = this.#at;
    this.#at += bytes;
    return start;
  }
}

/** Writes one packet, field after field; {@link WireWriter.packet} puts the length in front. */
export class WireWriter {
  #bytes = new Uint8Array(64);
  #view = new DataView(this.#bytes.buffer);
  #at = 4;

  constructor(type: number) {
    this.uint8(type);
  }

  uint8(value: number): this {
    this.#grow(1);
    this.#view.setUint8(this.#at, value);
    this.#at += 1;
    return this;
  }

  uint32(value: number): this {
    this.#grow(4);
    this.#view.setUint32(this.#at, value);
    this.#at += 4;
    return this;
  }

  uint64(value: number): this {
    return this.uint32(Math.floor(value / 2 ** 32)).uint32(value % 2 ** 32);
  }

  string(bytes: Uint8Array): this {
    this.uint32(bytes.length).#grow(bytes.length);
    this.#bytes.set(bytes, this.#at);
    this.#at += bytes.length;
    return this;
  }

  text(text: string): this {
    return this.string(new TextEncoder().encode(text));
  }

  /** The packet with its length; the writer is done with. */
  packet(): Uint8Array {
    this.#view.setUint32(0, this.#at - 4);
    return this.#bytes.subarray(0, this.#at);
  }

  #grow(bytes: number): void {
    if (this.#at + bytes <= this.#bytes.length) return;
    const grown = new Uint8Array(Math.max(2 * this.#bytes.length, this.#at + bytes));
    grown.set(this.#bytes.subarray(0, this.#at));
    this.#bytes = grown;
    this.#view = new DataView(grown.buffer);
  }
}
