import type { TagValue } from './written/index.ts';

/** What of an original is taken over into a file that is made of it. */
export interface TakenOver {
  /** The original; only read. */
  readonly path: string;
  /** Camera, lens, exposure. */
  readonly settings: boolean;
  /** Serial numbers of camera and lens, its owner’s name. */
  readonly serialNumbers: boolean;
  /** Where it was taken, by satellite. */
  readonly position: boolean;
  /** What it says of itself in fields of IPTC and PLUS; what is written by name goes before it. */
  readonly words: boolean;
}

export interface WriteWish {
  /** Values by ExifTool’s names with their group. */
  readonly tags: ReadonlyMap<string, TagValue>;
  /** Whether the format holds IIM. */
  readonly holdsIim: boolean;
  /** Whether the picture is in sRGB: Exif has a word for that space, and for the others together. */
  readonly isSrgb: boolean;
  /** Exif of a JPEG says in which order its components come; that of another format does not. */
  readonly isJpeg: boolean;
  readonly takenOver: TakenOver;
}

/** Writes metadata into files of ours. Implemented outside the pure rooms; never writes into an original. */
export interface MetadataWriter {
  /**
   * Writes into the file at `path` and reads it again. The same file and wish give the same bytes; picture and profile stay as they
   * are. Returns what is not as wanted, by the names of tags: empty where all is. Rejects with the codes of `MetadataReader`.
   */
  write(
    path: string,
    wish: WriteWish,
    options?: { readonly signal?: AbortSignal },
  ): Promise<readonly string[]>;
  /** Ends what the writer keeps running. */
  close(): Promise<void>;
}
