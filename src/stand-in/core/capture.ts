import type { CivilTime } from '../../base/index.ts';
import type { Orientation } from '../../facts/index.ts';
import type { CameraBody } from './camera-body.ts';

/** The shutter's moment on the camera's own clock, with the zone that clock is set to. */
export interface ExifTime {
  readonly local: CivilTime;
  /** Minutes east of Greenwich; -840 to 840. */
  readonly offsetMinutes: number;
}

/** What the dials stand at. Pairs are numerator and denominator, as Exif keeps them. */
export interface CaptureSettings {
  readonly exposureTime: readonly [number, number];
  readonly fNumber: readonly [number, number];
  readonly sensitivity: number;
  /** Whether the camera chooses the white balance itself. */
  readonly autoBalance: boolean;
  readonly focalLengthMm: number;
}

/** What a camera knows of a frame beside its pixels. */
export interface Capture {
  readonly body: CameraBody;
  readonly shutter: ExifTime;
  readonly settings: CaptureSettings;
  /** Pictures are stored as the sensor lies, not turned upright. */
  readonly orientation: Orientation;
}

const two = (value: number): string => String(value).padStart(2, '0');

/** `2026:10:01 08:04:05`, Exif 2.32 section 4.6.5, DateTime. */
export function exifDateTime({ local }: ExifTime): string {
  const date = `${String(local.year).padStart(4, '0')}:${two(local.month)}:${two(local.day)}`;
  return `${date} ${two(local.hours)}:${two(local.minutes)}:${two(local.seconds)}`;
}

/** `+02:00`, Exif 2.31 OffsetTimeOriginal. */
export function exifOffset({ offsetMinutes }: ExifTime): string {
  const size = Math.abs(offsetMinutes);
  return `${offsetMinutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

/** Milliseconds as SubSecTimeOriginal has them: three figures, a decimal fraction of the second. */
export function exifSubSeconds({ local }: ExifTime): string {
  return String(local.ms).padStart(3, '0');
}
