/**
 * What a parser stumbled over. A damaged file is an expected outcome: it gives what could be read and a list of these,
 * never an exception.
 */
export interface Issue {
  readonly code: IssueCode;
  /** Where in the file, from its start. */
  readonly offset: number;
  /** `error`: what lies behind it could not be followed, so the file cannot be proved whole. */
  readonly severity: 'warning' | 'error';
}

/** Stable codes. */
export const issueCodes = [
  /** A directory claims more entries than {@link Limits.entriesMax}. */
  'ifd-too-many-entries',
  /** A directory without entries; TIFF 6.0 section 2 asks for at least one. */
  'ifd-empty',
  /** A pointer leads to a directory that was already read. */
  'ifd-loop',
  /** More directories, or deeper ones, than the limits allow. */
  'ifd-too-many',
  /** A value, strip or directory claims to end where no file of this format can reach. */
  'claim-past-format',
  /** An offset or a length that is no whole number of bytes, because its field has another type. */
  'claim-not-a-place',
  /** A value points out of the segment or the box that holds it. */
  'claim-past-segment',
  /** The limit on bytes read for structure is used up. */
  'structure-too-large',
  /** More strips, tiles or samples than the limits allow. */
  'pieces-too-many',
  /** Offsets without sizes, not as many of one as of the other, or a table longer than what holds it. */
  'pieces-unclear',
  /** More boxes than the limits allow. */
  'box-too-many',
  /** A box shorter than its own header, or longer than the box that holds it. */
  'box-bad-size',
  /** A box that goes on to the end of the file, wherever that is, so that a cut cannot be seen. */
  'box-open-ended',
  /** What is announced as a JPEG preview is none that can be shown. */
  'preview-not-viewable',
  /** Bytes between JPEG segments that belong to none. */
  'jpeg-junk',
  /** A segment shorter than its own length field. */
  'jpeg-bad-segment',
  /** More marker segments, or a longer file, than the limits allow. */
  'jpeg-too-long',
  /** The JPEG ends without a frame or a scan, or its frame has no size. */
  'jpeg-no-picture',
] as const;
export type IssueCode = (typeof issueCodes)[number];
