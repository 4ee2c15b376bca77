/** A memory card was held against originals and copies, file by file: what was proved then. */
export interface CardChecked {
  readonly type: 'card-checked';
  /** The folder it was shown under. */
  readonly folder: string;
  readonly files: number;
  readonly bytes: number;
  /** Files by what was proved of them; together they are `files`. */
  readonly safe: number;
  readonly once: number;
  readonly missing: number;
  readonly unread: number;
  /** Every file was safe, and the card was there to its end. */
  readonly isSafe: boolean;
  /** The last number of each camera among the files of the card that are here. */
  readonly lasts: readonly CardLast[];
}

export interface CardLast {
  readonly camera: string;
  /** What tells two cameras of one log-in apart (`namePrefix`). */
  readonly prefix: string;
  /** 1 to 9999. */
  readonly counter: number;
}
