import type { EpochMs } from '../base/index.ts';

/**
 * What the camera says of one exposure. Every field may be missing: a camera may write nothing, and a file that is
 * still arriving has not said it yet. Strings are trimmed, at most 120 characters, free of control characters.
 */
export interface CaptureFacts {
  readonly cameraMake?: string;
  readonly cameraModel?: string;
  readonly cameraSerial?: string;
  readonly lensModel?: string;
  /** Exposure time, seconds; > 0. */
  readonly exposureTimeS?: number;
  /** Relative aperture N of f/N; > 0. */
  readonly fNumber?: number;
  /** Exif PhotographicSensitivity (ISO 12232); > 0. */
  readonly sensitivity?: number;
  /** Actual focal length, mm; > 0. */
  readonly focalLengthMm?: number;
  readonly shutter?: ShutterTime;
  readonly orientation?: Orientation;
  /** Full picture as the header announces it, before orientation, pixels. */
  readonly widthPx?: number;
  readonly heightPx?: number;
}

/** When the shutter fired, as the camera's clock said, with how much of it is known. */
export interface ShutterTime {
  /**
   * The moment. Where `offsetKnown` is false the camera's clock was read as the station's local time
   * (the caller passes that offset), because Exif before 2.31 carries no zone.
   */
  readonly atMs: EpochMs;
  readonly offsetKnown: boolean;
  /** True where the camera wrote SubSecTimeOriginal. */
  readonly subSecondsKnown: boolean;
}

/**
 * Exif 2.32 tag 0x0112: how the stored raster must be turned to be upright.
 * 1 as stored · 2 mirror left-right · 3 turn 180° · 4 mirror top-bottom · 5 transpose · 6 turn 90° clockwise ·
 * 7 transverse · 8 turn 90° counter-clockwise.
 */
export type Orientation = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8;
