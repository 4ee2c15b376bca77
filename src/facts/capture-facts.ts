import type { EpochMs } from '../base/index.ts';
import type { Orientation } from '../image/index.ts';
import type { ShareBox } from './sharp-reading.ts';
import type { SidecarWords } from './sidecar-words.ts';

export type { Orientation };

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
  /** Exif ExposureProgram (0x8822): 1 manual, 2 program, 3 aperture priority, 4 time priority, 5 to 8 scenes. */
  readonly exposureProgram?: number;
  /** Exif ExposureMode (0xA402) is 2: the camera itself was told to take a bracket. */
  readonly inBracket?: boolean;
  /** Exif WhiteBalance (0xA403): who chose the balance, the camera or a person. */
  readonly whiteBalance?: 'auto' | 'manual';
  /** Exif CompressedBitsPerPixel (0x9102): how hard a JPEG was told to be compressed; > 0. */
  readonly compressedBitsPerPixel?: number;
  /** TIFF Compression (0x0103) of the full picture of a raw: 1 none, 7 lossless JPEG, 34892 lossy JPEG, others the maker's. */
  readonly compression?: number;
  /** TIFF BitsPerSample (0x0102) of the full picture of a raw. */
  readonly bitsPerSample?: number;
  /** Actual focal length, mm; > 0. */
  readonly focalLengthMm?: number;
  /** The focal length of the same view on 24 x 36 mm, mm; > 0. */
  readonly focalLength35Mm?: number;
  /** From the camera to the plane of focus, m; > 0. Few cameras say it. */
  readonly subjectDistanceM?: number;
  /** Where the camera focused, in the picture as it is stored. */
  readonly focusArea?: ShareBox;
  readonly shutter?: ShutterTime;
  readonly orientation?: Orientation;
  /** `xmp:Rating` that came with the frame, -1 or above 0; missing for an unrated one. */
  readonly rating?: number;
  /** What a sidecar that came with the frame says; missing where none came. */
  readonly sidecar?: SidecarWords;
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
