import type { RgbSpace } from '../colour/index.ts';

/** The byte for each of 65,536 even steps of linear light 0 … 1; see `encodeSamples8`. */
export function encodeTable(space: RgbSpace): Uint8Array<ArrayBuffer> {
  return Uint8Array.from({ length: 65_536 }, (_, step) =>
    Math.round(255 * Math.min(1, Math.max(0, space.transfer.encode(step / 65_535)))),
  );
}
