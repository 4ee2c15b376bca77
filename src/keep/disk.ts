/**
 * The operations that keeping a file uses, and no others: above all nothing that deletes bytes. The one that takes a file
 * away ({@link Disk.discardDouble}) compares it with another that holds the same bytes. Joined to the real disk by
 * `node-disk.ts`; `testing/simulated-disk.ts` is one that loses power. Paths are absolute. Rejections carry the system's code
 * (`ENOSPC`, `EIO`, `EEXIST`, `ENOENT` …).
 */
export interface Disk {
  /** A new, empty file to write and read. Rejects `EEXIST`: nothing is ever written over. */
  createFile(path: string): Promise<DiskFile>;
  openFile(path: string, mode: 'read' | 'write'): Promise<DiskFile>;
  /** The caller has made sure that nothing lies at `to`. Durable after both folders were synced. */
  rename(from: string, to: string): Promise<void>;
  /**
   * Takes a file away all of whose bytes are the first bytes of another one, compared here, byte by byte, right before.
   * False, and nothing done, where they are not, where either is no plain file, and where both are one file. The caller
   * has made sure that the other is durable. Durable itself after the folder was synced.
   */
  discardDouble(path: string, keeper: string): Promise<boolean>;
  /** Makes the entries of a folder durable: names made in it, moved into it, moved out of it. */
  syncFolder(path: string): Promise<void>;
  /** The same in two steps: opened while there is time, so that the sync is one call when it is waited for. */
  openFolder(path: string): Promise<DiskFolder>;
  /** One level. False where a folder is there already. */
  makeFolder(path: string): Promise<boolean>;
  list(path: string): Promise<DiskEntry[]>;
  /** Null where there is nothing. */
  stat(path: string): Promise<DiskEntry | null>;
  free(path: string): Promise<DiskSpace>;
  /** Another after each start of the computer; null where the system does not tell. */
  bootId(): Promise<string | null>;
  /** Claims a home for this process. Rejects `home-in-use`. The claim ends with the process, whatever ends it. */
  lock(home: string): Promise<() => void>;
}

export interface DiskFile {
  /** Writes all of it, one buffer after the other. After a rejection an unknown part may be there. */
  write(buffers: readonly Uint8Array[], positionBytes: number): Promise<void>;
  /** Fills `into` from a position; gives the count, less than asked for only at the end of the file. */
  read(into: Uint8Array, positionBytes: number): Promise<number>;
  /** Data and size are durable when it settles (fdatasync). The name is not: that takes {@link Disk.syncFolder}. */
  sync(): Promise<void>;
  sizeBytes(): Promise<number>;
  close(): Promise<void>;
}

export interface DiskFolder {
  /** As {@link Disk.syncFolder}. */
  sync(): Promise<void>;
  close(): Promise<void>;
}

export interface DiskEntry {
  readonly name: string;
  readonly kind: 'file' | 'folder' | 'other';
  readonly sizeBytes: number;
}

export interface DiskSpace {
  readonly freeBytes: number;
  readonly totalBytes: number;
}
