/** Room for bytes that came before their turn, shared by all files of a door. */
export class EarlyRoom {
  #leftBytes: number;

  constructor(bytesMax: number) {
    this.#leftBytes = bytesMax;
  }

  take(bytes: number): boolean {
    if (bytes > this.#leftBytes) return false;
    this.#leftBytes -= bytes;
    return true;
  }

  give(bytes: number): void {
    this.#leftBytes += bytes;
  }
}

export interface EarlyLimits {
  readonly earlyBytesPerFileMax: number;
  readonly earlyPiecesPerFileMax: number;
}

/**
 * Bytes of one file that came before their turn. A client with many writes under way may send them in any order; a
 * camera's folder takes bytes from first to last. What is here waits until the gap before it is filled.
 */
export class EarlyBytes {
  readonly #limits: EarlyLimits;
  readonly #room: EarlyRoom;
  /** By the offset of their first byte; none touch. */
  readonly #pieces = new Map<number, Uint8Array>();
  #heldBytes = 0;

  constructor(limits: EarlyLimits, room: EarlyRoom) {
    this.#limits = limits;
    this.#room = room;
  }

  get isEmpty(): boolean {
    return this.#pieces.size === 0;
  }

  /** Keeps the bytes themselves, not a copy. Refuses what overlaps and what there is no room for. */
  put(offsetBytes: number, bytes: Uint8Array): 'taken' | 'too-far' | 'overlapping' {
    const { earlyBytesPerFileMax, earlyPiecesPerFileMax } = this.#limits;
    if (this.overlaps(offsetBytes, bytes.length)) return 'overlapping';
    if (this.#pieces.size >= earlyPiecesPerFileMax) return 'too-far';
    if (this.#heldBytes + bytes.length > earlyBytesPerFileMax) return 'too-far';
    if (!this.#room.take(bytes.length)) return 'too-far';
    this.#heldBytes += bytes.length;
    this.#pieces.set(offsetBytes, bytes);
    return 'taken';
  }

  overlaps(offsetBytes: number, sizeBytes: number): boolean {
    for (const [start, piece] of this.#pieces) {
      if (start < offsetBytes + sizeBytes && offsetBytes < start + piece.length) return true;
    }
    return false;
  }

  /** The bytes that begin at this offset, which are the caller's from now on; null where none do. */
  takeAt(offsetBytes: number): Uint8Array | null {
    const piece = this.#pieces.get(offsetBytes);
    if (piece === undefined) return null;
    this.#pieces.delete(offsetBytes);
    this.#giveBack(piece.length);
    return piece;
  }

  /** Forgets what never found its place. */
  clear(): void {
    this.#pieces.clear();
    this.#giveBack(this.#heldBytes);
  }

  #giveBack(bytes: number): void {
    this.#heldBytes -= bytes;
    this.#room.give(bytes);
  }
}
