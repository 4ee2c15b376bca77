import type { DecodedRaw, RawDecoder, RawHints } from '../develop/index.ts';
import { decodeRaw } from './decode-raw.ts';
import { fileKey, LastKept } from './last-kept.ts';
import { rawError } from './raw-error.ts';
import { ReadBuffer } from './read-original.ts';

/** Decoded raws by the path of their file. */
export interface RawSource {
  /** Reads and decodes, whatever the layout; the mosaic is only read by whoever gets it. Errors: those of `decodeRaw`. */
  open(path: string, hints: RawHints | undefined): Promise<DecodedRaw>;
}

/**
 * The same for whoever reads samples themselves: 2x2 mosaics only. Errors: `raw-unsupported-mosaic`, and those of `open`.
 */
export async function openMosaic(
  raws: RawSource,
  path: string,
  hints: RawHints | undefined,
): Promise<DecodedRaw> {
  const decoded = await raws.open(path, hints);
  const { layout } = decoded.mosaic;
  if (layout !== undefined) throw rawError('raw-unsupported-mosaic', { layout: layout.kind });
  return decoded;
}

/** Largest mosaic kept, pixels: the largest sensor in trade; 320 MB. */
export const keptPixelsMax = 160_000_000;

/**
 * A source that keeps the last mosaic for a few seconds, so that regions of one picture come without decoding it again.
 * A file that was written to meanwhile is decoded anew.
 */
export function keepingSource(decoder: RawDecoder): RawSource {
  const last = new LastKept<DecodedRaw>();
  const buffer = new ReadBuffer();
  return {
    open: async (path, hints) =>
      last.get(
        await fileKey(path, hints),
        () => decodeRaw(decoder, path, hints, buffer),
        ({ mosaic }) => mosaic.values.length <= keptPixelsMax,
      ),
  };
}
