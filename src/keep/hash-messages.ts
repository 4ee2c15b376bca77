/**
 * What crosses to a hash worker and back. A session is one file's hash; its messages are worked off in order, those
 * of different sessions side by side. Every request gets one answer with its number.
 */
export type HashRequest =
  | {
      readonly kind: 'bytes';
      readonly request: number;
      readonly session: number;
      /** Shared memory is read in place; other memory was copied on its way here. */
      readonly bytes: Uint8Array;
    }
  | {
      readonly kind: 'file';
      readonly request: number;
      readonly session: number;
      readonly path: string;
      /** From the start of the file. */
      readonly sizeBytes: number;
    }
  /** Of everything so far; the session goes on. */
  | { readonly kind: 'digest'; readonly request: number; readonly session: number }
  /** Forgets the session. */
  | { readonly kind: 'end'; readonly request: number; readonly session: number };

export type HashAnswer =
  | { readonly request: number; readonly ok: true; readonly sha256: string | null }
  | { readonly request: number; readonly ok: false; readonly message: string };
