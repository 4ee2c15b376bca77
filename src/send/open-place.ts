/** A file that is to be sent: whole, and it does not change any more. */
export interface FileToSend {
  /** On this computer, absolute. */
  readonly path: string;
  /** What it is called there. */
  readonly name: string;
  readonly bytes: number;
  /** Hexadecimal. */
  readonly sha256: string;
}

/** Who looks on while a file is sent. */
export interface SendWatch {
  readonly signal: AbortSignal;
  /** Bytes of the file that are there; falls where something has to be sent again. */
  readonly progress: (bytes: number) => void;
  /** What an earlier attempt noted of this file, which may have been one of another process; null where it noted nothing. */
  readonly token: () => string | null;
  /** Durable when it settles. */
  readonly keepToken: (token: string) => Promise<void>;
}

/** How it is known that a file is there as it is here. */
export type Proof =
  /** Every byte was read back and hashed. */
  | 'read-back'
  /** The server hashed what it has, by SHA-256. */
  | 'checksum'
  /** The server tells nothing but the size. */
  | 'size';

export interface Sent {
  /** For people and the manifest: an address without a secret. */
  readonly where: string;
  readonly proof: Proof;
}

/** A destination that is open: what folder, SFTP and S3 have in common. One file at a time. */
export interface OpenPlace {
  /**
   * Sends a file, goes on with what is there of it, and looks whether it is there as it is here. Nothing that lies there under its name
   * is overwritten: the same bytes are as good as sent. Rejects with `SendFailure`, or with the signal's reason.
   */
  send(file: FileToSend, watch: SendWatch): Promise<Sent>;
  /** Gives up what is there of a file that was begun and not finished, as far as it can be. */
  letGo(file: FileToSend, token: string | null): Promise<void>;
  /** Takes away a file that this program has just put there to try the place. */
  remove(name: string): Promise<void>;
  close(): void;
}
