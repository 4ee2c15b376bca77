import { stat } from 'node:fs/promises';
import type { DecodedRaw, RawDecoder, RawHints } from '../develop/index.ts';
import { decodeRaw } from './decode-raw.ts';
import { ReadBuffer } from './read-original.ts';

/** Decoded raws by the path of their file. */
export interface RawSource {
  /** Reads and decodes; the mosaic is only read by whoever gets it. Errors: those of `decodeRaw`. */
  open(path: string, hints: RawHints | undefined): Promise<DecodedRaw>;
}

/** A mosaic is kept this long after it was last asked for, ms: somebody moves over a picture at full size meanwhile. */
const keepMs = 8_000;

/** Largest mosaic kept, pixels: the largest sensor in trade; 320 MB. */
export const keptPixelsMax = 160_000_000;

/**
 * A source that keeps the last mosaic for a few seconds, so that regions of one picture come without decoding it again.
 * A file that was written to meanwhile is decoded anew.
 */
export function keepingSource(decoder: RawDecoder): RawSource {
  let kept: { readonly key: string; readonly raw: DecodedRaw } | null = null;
  let timer: NodeJS.Timeout | undefined;
  const buffer = new ReadBuffer();
  return {
    async open(path, hints) {
      const key = await keyOf(path, hints);
      if (kept?.key !== key) {
        // Let go first: two large mosaics need not be held at once.
        kept = null;
        const raw = await decodeRaw(decoder, path, hints, buffer);
        if (raw.mosaic.values.length > keptPixelsMax) return raw;
        kept = { key, raw };
      }
      clearTimeout(timer);
      timer = setTimeout(() => {
        kept = null;
      }, keepMs);
      timer.unref();
      return kept.raw;
    },
  };
}

async function keyOf(path: string, hints: RawHints | undefined): Promise<string> {
  const { dev, ino, size, mtimeMs } = await stat(path);
  return JSON.stringify([dev, ino, size, mtimeMs, hints ?? null]);
}
