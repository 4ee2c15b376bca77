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
