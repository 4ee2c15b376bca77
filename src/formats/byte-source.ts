/** A run of bytes in a file. */
export interface ByteRange {
  /** First byte, from the start of the file. */
  readonly offset: number;
  readonly length: number;
}

/**
 * A file that may still be arriving. Parsers only ask; whoever owns the file loads what they wanted and asks them
 * again, so the same parser serves a file on disk, an upload in flight and a browser.
 */
export interface ByteSource {
  /** Bytes there now; never shrinks. */
  readonly sizeBytes: number;
  /** True once no more will come. */
  readonly ended: boolean;
  /**
   * Exactly `length` bytes from `offset`, or null where they are not at hand: not arrived, or arrived but not loaded.
   * The view may alias the source's own buffer: read it, do not keep or change it.
   */
  read(offset: number, length: number): Uint8Array | null;
}

/** A source over bytes that are all in memory. Aliases `bytes`. */
export function sourceOfBytes(bytes: Uint8Array, ended = true): ByteSource {
  return {
    sizeBytes: bytes.length,
    ended,
    read: (offset, length) =>
      offset >= 0 && length >= 0 && offset + length <= bytes.length
        ? bytes.subarray(offset, offset + length)
        : null,
  };
}
