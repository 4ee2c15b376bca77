import type { Cdl } from '../schema.ts';

/**
 * The Common LUT Format: Academy S-2014-006 (version 3.0), SMPTE ST 2136-1. A chain of steps on three channels. Here all
 * of them are on the scale of floats, 1 = full; the bit depths of a document are taken out when it is read.
 */
export interface ClfDocument {
  readonly id: string;
  readonly name: string;
  readonly descriptions: readonly string[];
  readonly inputDescriptor: string;
  readonly outputDescriptor: string;
  readonly nodes: readonly ClfNode[];
  /** What its text said besides and is lost when it is written: elements and attributes by name. */
  readonly notKept?: readonly string[];
}

/** What a step says about itself; changes no number. */
export interface ClfStep {
  readonly id?: string;
  readonly name?: string;
  readonly descriptions?: readonly string[];
}

export type ClfNode = ClfMatrix | ClfRange | ClfLut1d | ClfLut3d | ClfCdl | ClfLog | ClfExponent;

/** Three rows of three factors and an offset. */
export interface ClfMatrix extends ClfStep {
  readonly kind: 'Matrix';
  readonly rows: Float64Array;
}

/** out = in x scale + offset, then cut. */
export interface ClfRange extends ClfStep {
  readonly kind: 'Range';
  readonly scale: number;
  readonly offset: number;
  /** Null: not cut there. */
  readonly min: number | null;
  readonly max: number | null;
}

export interface ClfLut1d extends ClfStep {
  readonly kind: 'LUT1D';
  /** One table for all channels, or three, entry by entry. */
  readonly channels: 1 | 3;
  readonly values: Float64Array;
  /** The entries stand for all 65,536 half floats by their bits, not for 0 … 1. */
  readonly halfDomain: boolean;
}

export interface ClfLut3d extends ClfStep {
  readonly kind: 'LUT3D';
  readonly size: number;
  /** size^3 x 3, red slowest. */
  readonly values: Float64Array | Float32Array;
  readonly interpolation: 'trilinear' | 'tetrahedral';
}

export interface ClfCdl extends ClfStep {
  readonly kind: 'ASC_CDL';
  readonly style: 'Fwd' | 'Rev' | 'FwdNoClamp' | 'RevNoClamp';
  readonly cdl: Cdl;
}

export const logStyles = [
  'log10',
  'antiLog10',
  'log2',
  'antiLog2',
  'linToLog',
  'logToLin',
  'cameraLinToLog',
  'cameraLogToLin',
] as const;
export type LogStyle = (typeof logStyles)[number];

export interface ClfLog extends ClfStep {
  readonly kind: 'Log';
  readonly style: LogStyle;
  /** Red, green, blue. */
  readonly params: readonly [LogParams, LogParams, LogParams];
}

export interface LogParams {
  readonly base: number;
  readonly logSideSlope: number;
  readonly logSideOffset: number;
  readonly linSideSlope: number;
  readonly linSideOffset: number;
  /** Of the camera styles. */
  readonly linSideBreak: number | null;
  /** Null: that of the logarithm at the break. */
  readonly linearSlope: number | null;
}

export const exponentStyles = [
  'basicFwd',
  'basicRev',
  'basicMirrorFwd',
  'basicMirrorRev',
  'basicPassThruFwd',
  'basicPassThruRev',
  'monCurveFwd',
  'monCurveRev',
  'monCurveMirrorFwd',
  'monCurveMirrorRev',
] as const;
export type ExponentStyle = (typeof exponentStyles)[number];

export interface ClfExponent extends ClfStep {
  readonly kind: 'Exponent';
  readonly style: ExponentStyle;
  /** Red, green, blue. */
  readonly params: readonly [ExponentParams, ExponentParams, ExponentParams];
}

export interface ExponentParams {
  readonly exponent: number;
  readonly offset: number;
}
