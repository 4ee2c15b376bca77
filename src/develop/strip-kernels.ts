import type { Matrix3, Vector3 } from '../colour/index.ts';
import type { Mosaic } from '../facts/index.ts';
import type { CurveTable, LookTable } from '../look/index.ts';
import type { DemosaicSteps } from './demosaic-steps.ts';
import type { BinPlan } from './plan.ts';

/** Brings rows `rowStart` … `rowEnd - 1` as balanced camera RGB into the kernels' strip; at most `stripRows` of them. */
export type FillStrip = (rowStart: number, rowEnd: number) => void;

/** The heavy steps from a mosaic to camera light, on one strip of whole rows. */
export interface CameraKernels {
  /** Interleaved RGB of `CameraWork.pixelsMax` pixels: what the steps fill and change. */
  readonly strip: Float32Array;
  /** `CameraWork.planeSamples` samples: planes of half size, or the rings of `demosaic`, root rows first. */
  readonly plane: Float32Array;
  /** Half-size rows `rowStart` … `rowEnd - 1` of the mosaic as balanced camera RGB; see half-reference.ts. */
  half(rowStart: number, rowEnd: number): void;
  /** The steps of full size, on the rings of `plane`. */
  readonly demosaic: DemosaicSteps;
}

export interface CameraWork {
  readonly mosaic: Pick<Mosaic, 'values' | 'widthPx' | 'heightPx'>;
  readonly bin: BinPlan;
  /** Which of `half` and `demosaic` is going to be used. */
  readonly isHalf: boolean;
  /** Most pixels of a strip. */
  readonly pixelsMax: number;
  readonly planeSamples: number;
  /** Width of the window. */
  readonly widthPx: number;
}

/**
 * The heavy steps of a rendering, bound to one mosaic and one look. There are two forms, in TypeScript and in WebAssembly
 * SIMD, tested against each other.
 */
export interface StripKernels extends CameraKernels {
  /** Highlights with lost channels rebuilt. */
  rebuild(pixels: number): void;
  /** Balanced camera RGB to display-linear RGB of the output space, within 0 … 1. */
  light(pixels: number): void;
  /** Display-linear RGB to encoded bytes. */
  encode(pixels: number, out: Uint8Array, outOffset: number): void;
}

export interface StripWork extends CameraWork {
  readonly light: LightPlan;
  /** See `encodeTable`. */
  readonly table: Uint8Array;
}

/** What `renderPixel` in reference.ts takes beside the pixel. */
export interface LightPlan {
  readonly toScene: Matrix3;
  readonly curve: CurveTable | null;
  readonly lookTable: LookTable | null;
  readonly toOutput: Matrix3;
  readonly luminance: Vector3;
}
