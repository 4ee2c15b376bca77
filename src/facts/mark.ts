/** How a frame is chosen; the trade's words. */
export const marks = ['hero', 'select', 'alternate', 'out', 'none'] as const;
export type Mark = (typeof marks)[number];

/** xmp:Rating of a mark (ISO 16684-1: -1 rejected, 0 unrated, up to 5). */
export const markToXmpRating: Readonly<Record<Mark, number>> = {
  hero: 5,
  select: 4,
  alternate: 2,
  out: -1,
  none: 0,
};

/**
 * The mark that an `xmp:Rating` of somebody else's means, or null for a figure that is no rating. Ours come back as they
 * went out; 1 to 3, which we do not write but for 2, are kept in mind and not chosen: alternate. Parts count down.
 */
export function markOfXmpRating(rating: number): Mark | null {
  if (rating === -1) return 'out';
  if (!(rating >= 0 && rating <= 5)) return null;
  if (rating >= 5) return 'hero';
  if (rating >= 4) return 'select';
  return rating >= 1 ? 'alternate' : 'none';
}
