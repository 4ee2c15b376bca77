import type { Capture } from './capture.ts';

export interface EmbeddedJpeg {
  /** Baseline JPEG, YCbCr 4:2:0 as most encoders write by themselves. */
  readonly bytes: Uint8Array;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** The sensor's values, RGGB row by row from the top left, black level not subtracted. Read, not kept. */
export type RawData =
  | { readonly compression: 'none'; readonly mosaic: Uint16Array }
  /** A JPEG stream from `lossless-jpeg.ts` with `sampleBits` to a sample. */
  | { readonly compression: 'lossless-jpeg'; readonly bytes: Uint8Array };

export interface StandInRaw {
  readonly data: RawData;
  /** Even, 2 or more. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** The camera's own pictures in the order they stand in the file, the small one (some 256 pixels wide) first. */
  readonly previews: readonly [EmbeddedJpeg, ...EmbeddedJpeg[]];
  readonly capture: Capture;
}

/** Where each piece of the file lies, bytes from its beginning. */
export interface RawLayout {
  readonly main: number;
  readonly exif: number;
  readonly mosaicDirectory: number;
  /** Directories of all previews but the first, whose fields are in the main one. */
  readonly previewDirectories: readonly number[];
  readonly previews: readonly number[];
  readonly data: number;
}
