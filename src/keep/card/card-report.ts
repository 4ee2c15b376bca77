import type { Finding } from '../../facts/index.ts';

/**
 * What is proved of one file of a card:
 * - `safe`: an original with the same bytes and a copy of it on another device, both read just now;
 * - `once`: only one of the two;
 * - `missing`: neither: these bytes are not known here;
 * - `unread`: it could not be read from the card, so nothing is known of it.
 */
export type CardFileState = 'safe' | 'once' | 'missing' | 'unread';

export interface CardFile {
  /** Below the card's folder, with `/`. */
  readonly path: string;
  readonly sizeBytes: number;
  /** Null where no file of this size is known, so that it need not be read, or where it could not be. */
  readonly sha256: string | null;
  readonly state: CardFileState;
  /** The original that has its bytes, below the home; null where none does. */
  readonly original: string | null;
  /** The camera that sent that original; null where none has its bytes. */
  readonly camera: string | null;
  /** Second places whose copy of it was read just now and has the same bytes. */
  readonly copies: readonly string[];
  /** What stands in the way; also of second places that lack a copy while another has one. */
  readonly findings: readonly Finding[];
}

export interface CardReport {
  readonly folder: string;
  readonly files: readonly CardFile[];
  readonly bytes: number;
  /** What computers leave on cards, and links: not looked at. Below the card's folder. */
  readonly passedOver: readonly string[];
  /** `card.gone`: pulled out meanwhile; `card.empty`; `card.is-home`, `card.is-place`: not apart from what it is held against. */
  readonly findings: readonly Finding[];
  /** Every file of the card is `safe`, and the card was there to its end. */
  readonly safe: boolean;
}

export interface CardProgress {
  readonly doneFiles: number;
  readonly files: number;
  readonly doneBytes: number;
  readonly bytes: number;
  readonly path: string;
}
