import { GiB, KiB, MiB } from '../base/index.ts';

/** What a parser will follow at most, whatever sizes and counts a file claims. */
export interface Limits {
  /** Directories in one file. Real raw files hold fewer than 20. */
  readonly ifdsMax: number;
  /** SubIFDs below each other. DNG uses one level. */
  readonly ifdDepthMax: number;
  /** Entries of one directory. The largest seen in practice have about 100. */
  readonly entriesMax: number;
  /** Strips, tiles or samples of one picture: a 400-megapixel file in tiles of 256 x 256 has 6,100. */
  readonly piecesMax: number;
  /** Boxes of one ISO base media file, all levels together; a raw file has about 70. */
  readonly boxesMax: number;
  /** Bytes of one text value that are read; the rest is left out. */
  readonly textBytesMax: number;
  /** Bytes read for structure in one inspection, all directories and values together. */
  readonly structureBytesMax: number;
  /** Announced previews; real files hold up to four. */
  readonly previewsMax: number;
  /** JPEG marker segments, restart markers not counted: a progressive file has some dozens. */
  readonly markersMax: number;
  /** Bytes of one JPEG that are walked in search of its end. */
  readonly walkBytesMax: number;
  /** Issues that are listed; further ones still count against wholeness. */
  readonly issuesMax: number;
  /** Ranges wished for at once. */
  readonly wantedMax: number;
}

export const defaultLimits: Limits = {
  ifdsMax: 64,
  ifdDepthMax: 4,
  entriesMax: 1024,
  piecesMax: 65_536,
  boxesMax: 1024,
  textBytesMax: 1 * KiB,
  structureBytesMax: 4 * MiB,
  previewsMax: 16,
  markersMax: 4096,
  walkBytesMax: 1 * GiB,
  issuesMax: 32,
  wantedMax: 32,
};

/** Bytes of a JPEG looked at in one step; also how much more must come before looking again is worth it. */
export const jpegStepBytes: number = 64 * KiB;
