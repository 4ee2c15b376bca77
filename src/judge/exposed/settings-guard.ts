import type { CaptureFacts, SettingChange, SettingName } from '../../facts/index.ts';
import { sameStops } from './exposure-value.ts';

/** What a frame was taken with, as its file says. */
export interface FrameSettings {
  readonly capture: CaptureFacts;
  /** What its picture is; null where that is not known, or says nothing of how the camera is set. */
  readonly format: 'raw' | 'jpeg' | null;
}

/** What decides how much of the picture is in the file. */
const qualities: ReadonlySet<SettingName> = new Set([
  'format',
  'size',
  'depth',
  'compression',
  'jpeg-compression',
]);

/** JPEGs of one setting are written with figures that are rounded; the next setting halves them (common practice, no source). */
const bitsShare = 0.2;

/**
 * The settings that stand otherwise than in the reference, in the order of `settingNames`. A dial counts as turned where it
 * stands {@link sameStops} off: thirds of a stop are written rounded, and the narrowest of them (f/13 to f/14) are 0.21 apart.
 * What either file does not say is no change; nor is anything of another camera body, whose settings are its own.
 */
export function settingChanges(own: FrameSettings, reference: FrameSettings): SettingChange[] {
  const [is, was] = [own.capture, reference.capture];
  if (isOtherBody(is, was)) return [];
  const sameFormat = own.format !== null && own.format === reference.format;
  return [
    // Av = 2 log2(N), Sv = log2(S) + constant, Tv = -log2(t): Exif 2.32 annex C.
    changed('aperture', was.fNumber, is.fNumber, (a, b) => isTurned(2 * Math.log2(a / b))),
    changed('sensitivity', was.sensitivity, is.sensitivity, (a, b) => isTurned(Math.log2(a / b))),
    changed('time', was.exposureTimeS, is.exposureTimeS, (a, b) => isTurned(Math.log2(a / b))),
    changed('white-balance', was.whiteBalance, is.whiteBalance, isOther),
    changed('program', was.exposureProgram, is.exposureProgram, isOther),
    changed('format', reference.format ?? undefined, own.format ?? undefined, isOther),
    ...(sameFormat ? qualityChanges(is, was, own.format === 'jpeg') : []),
  ].filter((each) => each !== null);
}

/** Whether a change is one of the file's quality, which is only known of a whole file. */
export function isOfQuality({ setting }: SettingChange): boolean {
  return qualities.has(setting);
}

function qualityChanges(is: CaptureFacts, was: CaptureFacts, isJpeg: boolean): (SettingChange | null)[] {
  const size = changed('size', sizeOf(was), sizeOf(is), isOther);
  const depth = changed('depth', was.bitsPerSample, is.bitsPerSample, isOther);
  if (!isJpeg) return [size, depth, changed('compression', was.compression, is.compression, isOther)];
  const harder = (a: number, b: number): boolean => Math.abs(a / b - 1) > bitsShare;
  return [size, changed('jpeg-compression', was.compressedBitsPerPixel, is.compressedBitsPerPixel, harder)];
}

function sizeOf({ widthPx, heightPx }: CaptureFacts): string | undefined {
  return widthPx === undefined || heightPx === undefined ? undefined : `${widthPx} x ${heightPx}`;
}

function isTurned(stops: number): boolean {
  return Math.abs(stops) >= sameStops;
}

function isOther(a: string | number, b: string | number): boolean {
  return a !== b;
}

/** Whoever logs in as the same camera with another body has its own dials, sizes and compressions. */
function isOtherBody(is: CaptureFacts, was: CaptureFacts): boolean {
  const differ = (a: string | undefined, b: string | undefined): boolean =>
    a !== undefined && b !== undefined && a !== b;
  return differ(is.cameraModel, was.cameraModel) || differ(is.cameraSerial, was.cameraSerial);
}

function changed<Value extends string | number>(
  setting: SettingName,
  was: Value | undefined,
  is: Value | undefined,
  differ: (was: Value, is: Value) => boolean,
): SettingChange | null {
  if (was === undefined || is === undefined || !differ(was, is)) return null;
  return { setting, was, is };
}
