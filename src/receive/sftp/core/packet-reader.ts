/** One packet, its length taken off: the type and what follows, in as many pieces as it came in. */
export interface Packet {
  readonly kind: 'packet';
  readonly pieces: readonly Uint8Array[];
  readonly sizeBytes: number;
}

/** What no client means: the connection cannot be followed any further. */
export interface BadLength {
  readonly kind: 'bad-length';
  readonly lengthBytes: number;
}

/**
 * Cuts what a channel carries into packets, however it is cut into chunks. The pieces alias the chunks: a file's bytes
 * are copied once, where they are kept, and not here.
 */
export class PacketReader {
  readonly #packetBytesMax: number;
  #chunks: Uint8Array[] = [];
  #heldBytes = 0;
  #lengthBytes: number | null = null;

  constructor(packetBytesMax: number) {
    this.#packetBytesMax = packetBytesMax;
  }

  push(chunk: Uint8Array): void {
    if (chunk.length === 0) return;
    this.#chunks.push(chunk);
    this.#heldBytes += chunk.length;
  }

  /** The next whole packet, or null until more has come. Nothing follows a bad length. */
  next(): Packet | BadLength | null {
    if (this.#lengthBytes === null) {
      if (this.#heldBytes < 4) return null;
      this.#lengthBytes = uint32Of(joined(this.#take(4)));
    }
    const lengthBytes = this.#lengthBytes;
    if (lengthBytes < 1 || lengthBytes > this.#packetBytesMax) return { kind: 'bad-length', lengthBytes };
    if (this.#heldBytes < lengthBytes) return null;
    this.#lengthBytes = null;
    return { kind: 'packet', pieces: this.#take(lengthBytes), sizeBytes: lengthBytes };
  }

  #take(bytes: number): Uint8Array[] {
    const { before, after } = parted(this.#chunks, bytes);
    this.#chunks = after;
    this.#heldBytes -= bytes;
    return before;
  }
}

/** Pieces up to a place and from there on; a piece across it is parted, without a copy. */
export function parted(
  pieces: readonly Uint8Array[],
  atBytes: number,
): { readonly before: Uint8Array[]; readonly after: Uint8Array[] } {
  const before: Uint8Array[] = [];
  const after: Uint8Array[] = [];
  let left = atBytes;
  for (const piece of pieces) {
    if (left > 0) before.push(piece.length <= left ? piece : piece.subarray(0, left));
    if (left < piece.length) after.push(left <= 0 ? piece : piece.subarray(left));
    left = Math.max(0, left - piece.length);
  }
  return { before, after };
}

/** The pieces as one; aliases where there is only one. */
export function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const [first] = pieces;
  if (first !== undefined && pieces.length === 1) return first;
  const whole = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

function uint32Of(bytes: Uint8Array): number {
  return new DataView(bytes.buffer, bytes.byteOffset, 4).getUint32(0);
}
