/** One file of a bag to be made: where its bytes are to be had, or the bytes. */
export interface BagSource {
  /** Below `data/`, with `/`. What a manifest would have to encode is made `_` in it. */
  readonly path: string;
  readonly from: { readonly file: string; readonly bytes: number } | { readonly text: string };
  /** What its bytes have to be, where that is known: others are refused. */
  readonly sha256: string | null;
}
