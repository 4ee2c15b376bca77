/**
 * What a file's own structure says of its end.
 * `whole`: everything its headers point to lies inside the bytes at hand and it ends as its format ends.
 * `cut`: the structure proves that more bytes must come; `expectedBytes` says how many there should be in all, null where
 * the bytes that would say so did not come either (a JPEG says its length only by its end).
 * `unknown`: nothing can be proved either way (text, a format we do not read, a cut exactly at a valid end).
 */
export type Wholeness =
  | { readonly kind: 'whole' }
  | { readonly kind: 'cut'; readonly expectedBytes: number | null }
  | { readonly kind: 'unknown' };

/**
 * The life of one file on its way in.
 * `arriving` · `whole` (kept, structure proved) · `unproved` (kept, acknowledged, wholeness cannot be proved) ·
 * `broken-off` (in incoming/, resumable) · `damaged` (kept: the camera sent the same cut bytes twice).
 */
export const arrivalStates = ['arriving', 'whole', 'unproved', 'broken-off', 'damaged'] as const;
export type ArrivalState = (typeof arrivalStates)[number];
