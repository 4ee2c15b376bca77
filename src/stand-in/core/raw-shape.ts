import type { Orientation } from '../../facts/index.ts';
import type { CaptureSettings, ExifTime } from './capture.ts';

export interface EmbeddedJpeg {
  /** Baseline JPEG, YCbCr 4:2:0 as most encoders write by themselves. */
  readonly bytes: Uint8Array;
  readonly widthPx: number;
  readonly heightPx: number;
}

export interface StandInRaw {
  /** `values[row * widthPx + column]`, RGGB from the top left, black level not subtracted. Read, not kept. */
  readonly mosaic: Uint16Array;
  /** Even, 2 or more. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** The camera's own small picture, about 256 pixels wide. */
  readonly thumbnail: EmbeddedJpeg;
  /** The camera's own large picture. Both are stored as the sensor lies, not turned upright. */
  readonly preview: EmbeddedJpeg;
  readonly orientation: Orientation;
  readonly shutter: ExifTime;
  readonly settings: CaptureSettings;
}

/** Where each piece of the file lies, bytes from its beginning. */
export interface RawLayout {
  readonly main: number;
  readonly capture: number;
  readonly previewDirectory: number;
  readonly mosaicDirectory: number;
  readonly thumbnail: number;
  readonly preview: number;
  readonly mosaic: number;
}
