/** SHA-256 of files on their way in. */
export interface Hashing {
  begin(): HashSession;
  close(): Promise<void>;
}

/** One file's hash. Calls are worked off in order; the caller need not wait for one before the next. */
export interface HashSession {
  /** Settles when the bytes were read: the caller may use the memory again. */
  update(bytes: Uint8Array): Promise<void>;
  /** Takes the first bytes of a file on the disk. */
  updateFromFile(path: string, sizeBytes: number): Promise<void>;
  /**
   * 64 hexadecimal digits of everything so far; the session may go on. Rejects where a step of it failed: then the file
   * is read once more.
   */
  digest(): Promise<string>;
  /** Nothing more will come. */
  end(): void;
}
