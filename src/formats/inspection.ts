import type { Wholeness } from '../facts/index.ts';
import type { ByteRange } from './byte-source.ts';
import type { ContentKind } from './content-kind.ts';
import type { Issue } from './issue.ts';
import type { JpegFrame } from './jpeg-markers.ts';
import type { JpegWalk } from './jpeg-walk.ts';
import type { PictureTags } from './picture-tags.ts';
import type { Preview } from './preview.ts';

/** What the bytes at hand say of a file that may still be arriving. */
export interface Inspection {
  readonly kind: ContentKind;
  /** Announced previews in the order in which their last bytes arrive. */
  readonly previews: readonly Preview[];
  /** Ranges that have arrived and should be loaded, then asked again. Empty where loading more helps nobody. */
  readonly wanted: readonly ByteRange[];
  /**
   * Asking again before this many bytes are there brings nothing new: the end of the next better preview, or of a
   * piece of structure that is missing, or some more of a JPEG's picture. Null where nothing further is awaited.
   */
  readonly wantedNext: number | null;
  /** What the structure proves of the bytes there now; `cut` while the rest is still coming. */
  readonly wholeness: Wholeness;
  /** How long the file must be at least by what its structure points to so far, bytes; null where that says nothing. */
  readonly expectedBytes: number | null;
  readonly tags: PictureTags;
  /** The full picture before orientation, pixels: DNG's default crop, else as stored; null where nobody says. */
  readonly pictureWidthPx: number | null;
  readonly pictureHeightPx: number | null;
  /** How far a JPEG's picture has come; null for other kinds. */
  readonly jpeg: JpegProgress | null;
  readonly issues: readonly Issue[];
  /** Where the next inspection of the same file goes on; opaque. */
  readonly resume: Resume | null;
}

/** What can be decoded of a JPEG that is still arriving: a baseline one from the top, a progressive one all over. */
export interface JpegProgress {
  readonly process: JpegFrame['process'] | null;
  readonly scansStarted: number;
  /** Entropy-coded bytes there now. */
  readonly scanBytes: number;
  /** Whether a decoder can show something of it now. */
  readonly decodable: boolean;
  /**
   * Where the entropy-coded data that is there ends, between two codes: everything before it and an EOI behind is a
   * picture, with what is missing in grey. 0 before the first scan.
   */
  readonly scanEndBytes: number;
  /** Where EOI ends the picture; null until it has been found. */
  readonly endBytes: number | null;
}

export interface Resume {
  readonly walk: JpegWalk;
  /** What the Exif segment said, once it was there whole. */
  readonly exif: ExifPart | null;
  /** The pictures of the Multi-Picture index, once it was there whole. */
  readonly pictures: readonly ByteRange[] | null;
}

export interface ExifPart {
  readonly tags: PictureTags;
  readonly previews: readonly Preview[];
}
