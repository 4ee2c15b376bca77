import type { CaptureFacts, ShareBox, SidecarWords } from '../facts/index.ts';

/**
 * A reader of everything that `formats` does not know: makers' notes, containers known by signature only, previews in
 * makers' own places. Implemented outside the pure rooms; never writes.
 */
export interface MetadataReader {
  /**
   * What the camera said of the file at `path`. Rejects with `metadata-unreadable`, `metadata-timed-out`, or
   * `metadata-closed`, or with the signal's reason.
   */
  readFacts(
    path: string,
    options: { readonly zoneOffsetMinutes: number; readonly signal?: AbortSignal },
  ): Promise<CaptureFacts>;
  /** `xmp:Rating` of the file at `path`, a sidecar or a picture; null where it says none. Rejects likewise. */
  readRating(path: string, options?: { readonly signal?: AbortSignal }): Promise<number | null>;
  /** What the sidecar at `path` says; nothing of what it does not say. Rejects likewise. */
  readSidecar(path: string, options?: { readonly signal?: AbortSignal }): Promise<SidecarWords>;
  /**
   * Where the camera focused, of the image regions in the XMP of the file at `path`: shares of the picture as stored. Null
   * where none tells. Rejects likewise.
   */
  readFocusRegion(path: string, options?: { readonly signal?: AbortSignal }): Promise<ShareBox | null>;
  /** The largest JPEG preview the reader finds in the file at `path`; null where there is none. Rejects likewise. */
  extractPreview(path: string, options?: { readonly signal?: AbortSignal }): Promise<Uint8Array | null>;
  /** Ends what the reader keeps running. Later calls reject with `metadata-closed`. */
  close(): Promise<void>;
}
