import type { Finding } from '../facts/index.ts';
import type { Sharpening, Size } from '../image/index.ts';

/** A rendering to the file that is handed over, and that file opened again. */
export interface FinishJob {
  /** TIFF of 16 bits with its profile, as `render` wrote it. */
  readonly path: string;
  /** What it is brought to; larger than it is only where it is enlarged (by Lanczos' kernel on encoded values). */
  readonly target: Size;
  /** The backdrop’s own tone around it: the whole frame, and where the picture lies in it; null for none. */
  readonly around: { readonly frame: Size; readonly leftPx: number; readonly topPx: number } | null;
  readonly sharpening: Sharpening;
  readonly format: FinishFormat;
  /** How large it is printed unless somebody says otherwise: JPEG, TIFF and PNG say so. */
  readonly pixelsPerInch: number;
  /** What each channel along the border has at least, of 255, and how much of it may have less, %; null: not looked at. */
  readonly border: { readonly leastCode: number; readonly darkPercentMax: number } | null;
  readonly outPath: string;
}

export type FinishFormat =
  | {
      readonly kind: 'jpeg';
      readonly quality: number;
      /** Quality gives way to `qualityMin` until the file has no more bytes; null: it does not. */
      readonly bytesMax: number | null;
      readonly qualityMin: number;
    }
  | { readonly kind: 'tiff'; readonly depth: 8 | 16; readonly compression: 'none' | 'lzw' | 'deflate' }
  | { readonly kind: 'png'; readonly depth: 8 | 16 }
  | { readonly kind: 'webp' | 'avif'; readonly quality: number };

/** What the file says of itself once it was opened again. */
export interface FinishAnswer {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly bytes: number;
  readonly sha256: string;
  /** Of a JPEG. */
  readonly quality: number | null;
  /** What a reader sees, for `prove`. */
  readonly pixelsSha256: string;
  readonly profileSha256: string;
  /** What is wrong with it, by code; empty where all is as it was asked for. The file is there all the same. */
  readonly findings: readonly Finding[];
}

/** A finished file into which metadata was written since. */
export interface ProveJob {
  readonly path: string;
  /** Of the `FinishAnswer`. */
  readonly pixelsSha256: string;
  readonly profileSha256: string;
}

export interface ProveAnswer {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly bytes: number;
  readonly sha256: string;
}
