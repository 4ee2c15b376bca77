/** A picture inside a file that can be shown before the file is there, or without developing it. */
export interface Preview {
  /** Where its bytes are, from the start of the file. */
  readonly offset: number;
  readonly length: number;
  /** As stored, before orientation, pixels; null until the tags or the JPEG's own frame header have said it. */
  readonly widthPx: number | null;
  readonly heightPx: number | null;
  /** `uncompressed-rgb`: 8 bits, red green blue, row by row without padding. */
  readonly compression: 'jpeg' | 'uncompressed-rgb';
  /** All its bytes have arrived, and what is at hand of them is what was announced. */
  readonly complete: boolean;
  /** What the file says; null where it says nothing. sRGB is then the trade's guess (common practice, no source). */
  readonly colourSpace: 'srgb' | 'adobe-rgb' | 'prophoto-rgb' | null;
}

/**
 * Long edge from which a preview is good enough to stand for the frame on a screen, pixels; a smaller one serves until
 * such a one is there.
 */
export const firstViewLongEdgePx = 1000;

/** The longer edge in pixels; 0 while nobody has said it. */
export function longEdgePx(preview: Preview): number {
  return Math.max(preview.widthPx ?? 0, preview.heightPx ?? 0);
}

/**
 * The preview to show now: the largest that is complete, so that a small one serves until one of
 * {@link firstViewLongEdgePx} is there and a larger one replaces that. Null where none is complete.
 */
export function pickFirstView(previews: readonly Preview[]): Preview | null {
  let best: Preview | null = null;
  for (const preview of previews) {
    if (!preview.complete || longEdgePx(preview) === 0) continue;
    if (best === null || longEdgePx(preview) > longEdgePx(best)) best = preview;
  }
  return best;
}

/**
 * Up to which byte the file must arrive for a better view than the one that can be shown now; null where none is
 * announced. A preview of unknown size may be better.
 */
export function nextBetterEnd(previews: readonly Preview[]): number | null {
  const now = pickFirstView(previews);
  const ends = previews
    .filter((preview) => !preview.complete)
    .filter((preview) => now === null || preview.widthPx === null || longEdgePx(preview) > longEdgePx(now))
    .map((preview) => preview.offset + preview.length);
  return ends.length === 0 ? null : Math.min(...ends);
}
