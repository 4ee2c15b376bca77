import type { CopyOutcome, FileToCopy, JournalOutcome, PlaceCheck } from './copy-shapes.ts';

/** What a copy thread is asked, one thing at a time. */
export type CopyRequest =
  | { readonly kind: 'check'; readonly found: boolean }
  | { readonly kind: 'copy'; readonly file: FileToCopy }
  | { readonly kind: 'journal' };

export type CopyAnswer =
  | { readonly kind: 'check'; readonly outcome: PlaceCheck }
  | { readonly kind: 'copy'; readonly outcome: CopyOutcome }
  | { readonly kind: 'journal'; readonly outcome: JournalOutcome };
