/** Saved versions of looks. */
export type LookChoice = LookSaved | LookAsideSet;

/** A version of a look was saved: under its own id, never written over. */
export interface LookSaved {
  readonly type: 'look-saved';
  readonly look: string;
  readonly name: string;
  /** 1, 2, 3 … among those of one name. */
  readonly version: number;
  /** SHA-256 over the canonical JSON (RFC 8785) of what changes a picture in it. */
  readonly hash: string;
  /** The whole document. */
  readonly document: Readonly<Record<string, unknown>>;
  readonly by: string;
}

/** A saved version is no longer offered, or is again. */
export interface LookAsideSet {
  readonly type: 'look-aside-set';
  readonly look: string;
  readonly aside: boolean;
}
