/** Where a sheet at the lower edge of a phone comes to rest: gone, its heading alone, half of the page, most of it. */
export type SheetStop = 'gone' | 'low' | 'half' | 'high';

/** Heights of the stops. `headPx`: the handle with the heading below it. */
export function sheetStopPx(stop: Exclude<SheetStop, 'gone'>, pagePx: number, headPx: number): number {
  return { low: headPx, half: Math.max(headPx, 0.45 * pagePx), high: 0.85 * pagePx }[stop];
}

/** The stop that is nearest to where a finger let go of the sheet; pulled well below its heading it is gone. */
export function sheetStopAt(heightPx: number, pagePx: number, headPx: number): SheetStop {
  if (heightPx < headPx / 2) return 'gone';
  const stops = ['low', 'half', 'high'] as const;
  const away = (stop: (typeof stops)[number]): number =>
    Math.abs(sheetStopPx(stop, pagePx, headPx) - heightPx);
  return stops.reduce((best, stop) => (away(stop) < away(best) ? stop : best));
}
