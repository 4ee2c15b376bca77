import type {
  CopyOutcome,
  CopyToLookFor,
  FileToCopy,
  JournalOutcome,
  LookOutcome,
  PlaceCheck,
} from './copy-shapes.ts';

/** What a copy process is asked, one thing at a time. */
export type CopyRequest =
  | { readonly kind: 'check'; readonly place: string; readonly found: boolean }
  | { readonly kind: 'copy'; readonly place: string; readonly file: FileToCopy }
  | { readonly kind: 'look'; readonly place: string; readonly copies: readonly CopyToLookFor[] }
  | { readonly kind: 'journal'; readonly place: string };

export type CopyAnswer =
  | { readonly kind: 'check'; readonly outcome: PlaceCheck }
  | { readonly kind: 'copy'; readonly outcome: CopyOutcome }
  | { readonly kind: 'look'; readonly outcome: LookOutcome }
  | { readonly kind: 'journal'; readonly outcome: JournalOutcome };
