import type { EpochMs } from '../base/index.ts';
import type { Fault } from './core/faults.ts';
import type { FileKind } from './core/file-kinds.ts';
import type { FrameTruth } from './core/frame-truth.ts';

/** What became of one frame: all that a test or a rehearsal needs to hold the station's answer against. */
export interface SentFrame {
  /** Serial number of its camera, as in the Exif of its files. */
  readonly camera: string;
  /** Which frame of its camera's session it is, from 1. */
  readonly frame: number;
  /** When the shutter really fired. */
  readonly shutterMs: EpochMs;
  /** How far the camera's clock is ahead: the files say `shutterMs + clockAheadMs`. */
  readonly clockAheadMs: number;
  /** In the order they were sent. */
  readonly files: readonly SentFile[];
  /** Whether the station acknowledged all of them. */
  readonly sent: boolean;
  readonly faults: readonly Fault[];
  readonly truth: FrameTruth;
}

export interface SentFile {
  readonly kind: FileKind;
  /** `/DCIM/100SETSD/QMST0001.DNG` */
  readonly path: string;
  readonly name: string;
  readonly sizeBytes: number;
  /** 64 figures, lower case. */
  readonly sha256: string;
  /** Whether the station acknowledged it, each time it was sent. */
  readonly sent: boolean;
}
