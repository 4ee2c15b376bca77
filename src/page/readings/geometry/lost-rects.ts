import type { ExposedReadings } from '../../../contract/index.ts';

/** Cells side by side that have lost the same channels; shares of the picture. */
export interface LostRect {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** Red 1 + green 2 + blue 4. */
  readonly channels: number;
}

/** The cells of a map that have lost light, joined along their rows. */
export function lostRects({ columns, rows, runs }: ExposedReadings['lost']): LostRect[] {
  const rects: LostRect[] = [];
  let at = 0;
  for (let index = 0; index + 1 < runs.length; index += 2) {
    const end = Math.min(columns * rows, at + (runs[index] ?? 0));
    const channels = runs[index + 1] ?? 0;
    while (at < end) {
      const row = Math.floor(at / columns);
      const here = Math.min(end, (row + 1) * columns) - at;
      if (channels !== 0)
        rects.push({
          left: (at % columns) / columns,
          top: row / rows,
          width: here / columns,
          height: 1 / rows,
          channels,
        });
      at += here;
    }
  }
  return rects;
}
