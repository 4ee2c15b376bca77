import type { ByteRange } from './byte-source.ts';

/**
 * The fixed header of a RAF file. No standard describes it: the places are from memory and agree with where
 * ExifTool 12.57 reads them; no sample was at hand. Big-endian.
 */
export interface RafHeader {
  /** The picture as the camera rendered it, with Exif. */
  readonly jpeg: ByteRange;
  /** Records about the sensor values; see {@link rafSizeOf}. */
  readonly records: ByteRange;
  readonly sensor: ByteRange;
  /** A second set of records and sensor values is announced, which is not read. */
  readonly hasMore: boolean;
}

/** Bytes of the header up to the end of the sensor values' place. */
export const rafHeaderBytes = 108;

/** Bytes with the places of a second set, where the header is so long. */
export const rafLongHeaderBytes = 136;

const jpegAt = 84;
const recordsAt = 92;
const sensorAt = 100;
const secondRecordsAt = 120;
const secondSensorAt = 128;

/** Parses {@link rafHeaderBytes}, or {@link rafLongHeaderBytes} where they are there. */
export function parseRafHeader(bytes: Uint8Array): RafHeader {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const rangeAt = (at: number): ByteRange => ({ offset: view.getUint32(at), length: view.getUint32(at + 4) });
  const jpeg = rangeAt(jpegAt);
  const isLong = bytes.length >= rafLongHeaderBytes && jpeg.offset >= rafLongHeaderBytes;
  return {
    jpeg,
    records: rangeAt(recordsAt),
    sensor: rangeAt(sensorAt),
    hasMore: isLong && (view.getUint32(secondRecordsAt) !== 0 || view.getUint32(secondSensorAt) !== 0),
  };
}
