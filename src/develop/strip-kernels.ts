import type { Matrix3, Vector3 } from '../colour/index.ts';
import type { CurveTable } from '../look/index.ts';
import type { BinPlan } from './plan.ts';

/**
 * The heavy steps of a rendering on one strip of whole rows, bound to one mosaic and one look. There are two forms, in
 * TypeScript and in WebAssembly SIMD, tested against each other.
 */
export interface StripKernels {
  /** Interleaved RGB of `StripWork.pixelsMax` pixels: what `bin` fills, `light` changes and `encode` reads. */
  readonly strip: Float32Array;
  /** Half-size rows `rowStart` … `rowEnd - 1` of the mosaic as balanced camera RGB, highlights rebuilt. */
  bin(rowStart: number, rowEnd: number): void;
  /** Balanced camera RGB to display-linear RGB of the output space, within 0 … 1. */
  light(pixels: number): void;
  /** Display-linear RGB to encoded bytes. */
  encode(pixels: number, out: Uint8Array, outOffset: number): void;
}

export interface StripWork {
  readonly values: Uint16Array;
  readonly widthPx: number;
  readonly bin: BinPlan;
  readonly light: LightPlan;
  /** See `encodeTable`. */
  readonly table: Uint8Array;
  /** Most pixels of a strip; a whole number of half-size rows where `bin` is used. */
  readonly pixelsMax: number;
}

/** What `renderPixel` in reference.ts takes beside the pixel. */
export interface LightPlan {
  readonly toScene: Matrix3;
  readonly curve: CurveTable | null;
  readonly toOutput: Matrix3;
  readonly luminance: Vector3;
}
