/** Bounds that the FTP and the SFTP door have in common. Each says why it is; the numbers stand with each door's own. */
export interface DoorLimits {
  /** Bytes of one name, as UTF-8 on disk: what every common file system takes (POSIX NAME_MAX). */
  readonly nameBytesMax: number;
  /** Folders above a file. Cameras use two (DCIM/100ABCDE) and a date; 16 leaves room and ends recursion. */
  readonly pathDepthMax: number;
  /** Control connections in all. At 4 MiB of buffers per upload this bounds the door to about 480 MiB. */
  readonly connectionsMax: number;
  /** Control connections of one address. Cameras open one to four; several may sit behind one router. */
  readonly connectionsPerAddressMax: number;
  /**
   * Of the connections in all, those kept for addresses from which a camera has logged in: a flood of strangers never
   * keeps a known camera out. A third: a set's cameras at four connections each. Fewer than the connections in all.
   */
  readonly connectionsReserved: number;
  /** Addresses remembered as a camera's, the latest first: more than any studio deals out. */
  readonly knownAddressesMax: number;
  /**
   * Wrong log-ins of one address within a minute, at all doors of a station together; beyond that nothing is checked any
   * more (RFC 2577 section 5).
   */
  readonly loginFailuresPerMinuteMax: number;
  /** Addresses whose wrong log-ins are remembered: bounds the memory of a flood from ever new addresses. */
  readonly failingAddressesMax: number;
  /**
   * Changes of its folder that a camera may go on making: folders, renames, deletions, times, and uploads that are not
   * kept, by all doors of a station together. Each is a durable record; beyond, each waits its time. A burst of raw and
   * JPEG has 20 renames in a second.
   */
  readonly changesPerSecondMax: number;
  /** Changes that a camera may make at once: a card's folders and files put in order by hand. */
  readonly changesAtOnceMax: number;
  /**
   * Size of one receive buffer. A read fills at most one, and a full one is one write and one hash, with a thread woken
   * for each: 512 KiB cost 7 % more of the processor, 256 KiB half as much again (measured, 25 MB files).
   */
  readonly bufferBytes: number;
  /** Receive buffers per upload: one filling, the others on their way to disk. At least 2. */
  readonly buffersPerUpload: number;
  /** How long a few bytes may wait for more before they are written: keeps the first view close to the camera. */
  readonly flushAfterMs: number;
}
