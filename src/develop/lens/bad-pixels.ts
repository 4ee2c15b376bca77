import type { Mosaic } from '../../facts/index.ts';

/** Samples that a maker calls bad: places in pixels of the mosaic, areas as top, left, bottom, right. */
export interface BadPixels {
  readonly points: readonly (readonly [row: number, column: number])[];
  readonly areas: readonly (readonly [top: number, left: number, bottom: number, right: number])[];
  /** Every sample of just this value is one; null: none is. */
  readonly constant: number | null;
}

/** How far good samples are looked for, in steps of the mosaic's repeat. */
const stepsMax = 4;

/**
 * Mends bad samples in place, each by the mean of the nearest good ones of its own filter: those of the ring of eight around
 * it, one repeat of the mosaic off, or of the next ring where all of those are bad (DNG 1.7.1, chapter 7, leaves the way to the reader).
 * What has no good one within four rings stays, and so does a picture that is demosaiced already. Answers how many were mended.
 */
export function mendBadPixels(mosaic: Mosaic, bad: BadPixels): number {
  const { values, widthPx, heightPx, layout } = mosaic;
  if (layout?.kind === 'linear') return 0;
  const step = layout === undefined ? 2 : layout.kind === 'six' ? 6 : 1;
  const marks = new Uint8Array(values.length);
  for (const [row, column] of bad.points) mark(marks, mosaic, row, column, row + 1, column + 1);
  for (const [top, left, bottom, right] of bad.areas) mark(marks, mosaic, top, left, bottom, right);
  if (bad.constant !== null) {
    for (let at = 0; at < values.length; at++) if (values[at] === bad.constant) marks[at] = 1;
  }
  let mended = 0;
  for (let at = marks.indexOf(1); at >= 0; at = marks.indexOf(1, at + 1)) {
    const [row, column] = [Math.floor(at / widthPx), at % widthPx];
    for (let ring = 1; ring <= stepsMax; ring++) {
      const good = ringOf(row, column, step * ring)
        .filter(([y, x]) => y >= 0 && x >= 0 && y < heightPx && x < widthPx)
        .map(([y, x]) => y * widthPx + x)
        .filter((place) => marks[place] === 0);
      if (good.length === 0) continue;
      // Only marked samples are written, and only others are read.
      values[at] = Math.round(good.reduce((sum, place) => sum + (values[place] ?? 0), 0) / good.length);
      mended += 1;
      break;
    }
  }
  return mended;
}

function mark(
  marks: Uint8Array,
  { widthPx, heightPx }: Mosaic,
  top: number,
  left: number,
  bottom: number,
  right: number,
): void {
  const from = Math.max(0, left);
  const to = Math.min(widthPx, right);
  if (from >= to) return;
  for (let row = Math.max(0, top); row < Math.min(heightPx, bottom); row++) {
    marks.fill(1, row * widthPx + from, row * widthPx + to);
  }
}

function ringOf(row: number, column: number, off: number): readonly (readonly [number, number])[] {
  return [-off, 0, off].flatMap((dy) =>
    [-off, 0, off].filter((dx) => dx !== 0 || dy !== 0).map((dx) => [row + dy, column + dx] as const),
  );
}
