import { type EpochMs, median } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';

/** One file that came whole. */
export interface ArrivedFile {
  readonly bytes: number;
  readonly firstByteMs: EpochMs;
  readonly lastByteMs: EpochMs;
  readonly kind: 'raw' | 'jpeg' | 'other';
  /** When its frame was first seen, where this file showed it; null where another did, or nothing was seen. */
  readonly firstViewMs: EpochMs | null;
}

/** A size that was measured, or one that is assumed where none was. */
export interface SizeOf {
  readonly bytes: number;
  readonly measured: boolean;
  /** At the measured speed. */
  readonly ms: number;
}

/** What the speed of one camera's line means. */
export interface LineSpeed {
  /** Files it was measured on, and since when. */
  readonly files: number;
  readonly sinceMs: EpochMs;
  /** Of the files: the median, and the slowest and fastest of them. */
  readonly bytesPerSecond: number;
  readonly slowest: number;
  readonly fastest: number;
  /** Share of the time, 0 to 1, in which a file was on its way: from the first of these files to the last. */
  readonly busy: number;
  readonly raw: SizeOf;
  readonly jpeg: SizeOf;
  /** From the first byte of a raw to its first view, median; null where no raw showed one. */
  readonly firstViewMs: number | null;
  /** What a raw would take by a cable at {@link cableBytesPerSecond}. */
  readonly cableMs: number;
}

/** Files that are looked at: the newest of a camera. A line changes within minutes, with whoever stands in it. */
export const filesMax = 40;
/** A shorter file says more of the camera's pauses than of the line. */
export const bytesMin = 500_000;
/** Older ones say nothing about now: the camera was carried elsewhere meanwhile. */
export const spanMsMax = 3_600_000;
/** A losslessly compressed raw of 24 megapixels (common practice, no source). */
export const rawBytesAssumed = 25_000_000;
/** The smallest JPEG that cameras offer beside a raw (common practice, no source). */
export const jpegBytesAssumed = 3_000_000;
/** Half of gigabit Ethernet (IEEE 802.3: 125 MB/s): what is left of it by camera and protocol (common practice, no source). */
export const cableBytesPerSecond = 62_500_000;

/**
 * What the newest files of a camera say about its line; null where none of a size that tells came within the last hour
 * before the newest. A file's speed is its bytes from first to last, divided by the time between: n bytes in t. What two
 * files at a time share counts for each as it was seen.
 */
export function speedOf(arrived: readonly ArrivedFile[]): LineSpeed | null {
  const newestMs = Math.max(...arrived.map(({ lastByteMs }) => lastByteMs));
  const files = arrived
    .filter(({ bytes, firstByteMs, lastByteMs }) => bytes >= bytesMin && lastByteMs > firstByteMs)
    .filter(({ lastByteMs }) => newestMs - lastByteMs <= spanMsMax)
    .sort((one, other) => one.lastByteMs - other.lastByteMs)
    .slice(-filesMax);
  if (files.length === 0) return null;
  const speeds = files.map(
    ({ bytes, firstByteMs, lastByteMs }) => (bytes / (lastByteMs - firstByteMs)) * 1000,
  );
  const bytesPerSecond = median(speeds);
  const sized = (kind: ArrivedFile['kind'], assumed: number): SizeOf => {
    const sizes = files.filter((file) => file.kind === kind).map(({ bytes }) => bytes);
    const bytes = sizes.length > 0 ? median(sizes) : assumed;
    return { bytes, measured: sizes.length > 0, ms: (bytes / bytesPerSecond) * 1000 };
  };
  const raw = sized('raw', rawBytesAssumed);
  const waits = files.flatMap(({ kind, firstByteMs, firstViewMs }) =>
    kind === 'raw' && firstViewMs !== null && firstViewMs >= firstByteMs ? [firstViewMs - firstByteMs] : [],
  );
  return {
    files: files.length,
    sinceMs: Math.min(...files.map(({ firstByteMs }) => firstByteMs)),
    bytesPerSecond,
    slowest: Math.min(...speeds),
    fastest: Math.max(...speeds),
    busy: busyShare(files),
    raw,
    jpeg: sized('jpeg', jpegBytesAssumed),
    firstViewMs: waits.length > 0 ? median(waits) : null,
    cableMs: (raw.bytes / cableBytesPerSecond) * 1000,
  };
}

/** The same as a finding, for its sentence. Times in ms, speeds in bytes a second, `busy` in per cent. */
export function speedFinding(speed: LineSpeed): Finding {
  const { files, bytesPerSecond, slowest, fastest, busy, raw, jpeg, firstViewMs, cableMs } = speed;
  return {
    code: 'line-speed.measured',
    args: {
      files,
      ...{ bytesPerSecond, slowest, fastest },
      busyPercent: Math.round(busy * 100),
      rawBytes: raw.bytes,
      rawMs: raw.ms,
      rawFrom: raw.measured ? 'measured' : 'assumed',
      jpegBytes: jpeg.bytes,
      jpegMs: jpeg.ms,
      jpegFrom: jpeg.measured ? 'measured' : 'assumed',
      ...(firstViewMs === null ? {} : { firstViewMs }),
      cableMs,
      cableBytesPerSecond,
    },
  };
}

/** The time in which at least one file was on its way, divided by the whole. */
function busyShare(files: readonly ArrivedFile[]): number {
  const spans = files
    .map(({ firstByteMs, lastByteMs }) => ({ from: firstByteMs, to: lastByteMs }))
    .sort((one, other) => one.from - other.from);
  const fromMs = spans[0]?.from ?? 0;
  let [covered, end] = [0, fromMs];
  for (const { from, to } of spans) {
    covered += Math.max(0, to - Math.max(from, end));
    end = Math.max(end, to);
  }
  return end > fromMs ? covered / (end - fromMs) : 0;
}
