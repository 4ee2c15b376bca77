/**
 * Weighted means on a mosaic of 6 x 6 as sums of taps, one list for each of its 36 places: what a place lacks is told by
 * the samples around that have it. H. Knutsson, C.-F. Westin: Normalized and differential convolution, CVPR 1993.
 */
export interface SixTaps {
  /** Taps of place p: `starts[p]` … `starts[p + 1] - 1`. */
  readonly starts: Int32Array;
  /** Offsets into a plane. */
  readonly offsets: Int32Array;
  readonly weights: Float64Array;
}

export interface Tap {
  readonly row: number;
  readonly column: number;
  readonly weight: number;
}

/** Rows and columns that a bell reaches to either side, and its widths (standard deviations), pixels. */
export interface Bell {
  readonly rows: number;
  readonly columns: number;
  readonly sigmaRow: number;
  readonly sigmaColumn: number;
}

const repeat = 6;

export function filterOfSix(filters: readonly number[], row: number, column: number): number {
  const place = (at: number): number => ((at % repeat) + repeat) % repeat;
  return filters[place(row) * repeat + place(column)] ?? 1;
}

/** The mean of the samples of one colour under a bell at a place; weights add up to 1. */
export function meanTaps(
  filters: readonly number[],
  y: number,
  x: number,
  colour: number,
  bell: Bell,
): Tap[] {
  const taps: Tap[] = [];
  for (let row = -bell.rows; row <= bell.rows; row++) {
    for (let column = -bell.columns; column <= bell.columns; column++) {
      if (filterOfSix(filters, y + row, x + column) !== colour) continue;
      const far = (row / bell.sigmaRow) ** 2 + (column / bell.sigmaColumn) ** 2;
      taps.push({ row, column, weight: Math.exp(-far / 2) });
    }
  }
  const sum = taps.reduce((total, { weight }) => total + weight, 0);
  return taps.map((tap) => ({ ...tap, weight: tap.weight / sum }));
}

/** Lists of taps laid out for a plane of rows `stride` apart. */
export function sixTaps(stride: number, at: (row: number, column: number) => readonly Tap[]): SixTaps {
  const lists = Array.from({ length: repeat * repeat }, (_, place) =>
    at(Math.floor(place / repeat), place % repeat),
  );
  const starts = Int32Array.from({ length: lists.length + 1 }, (_, place) =>
    lists.slice(0, place).reduce((sum, list) => sum + list.length, 0),
  );
  const flat = lists.flat();
  return {
    starts,
    offsets: Int32Array.from(flat, ({ row, column }) => row * stride + column),
    weights: Float64Array.from(flat, ({ weight }) => weight),
  };
}

/** A thin bell along a row or a column, and a round one; tuned on the photographs of docs/demosaic.md. */
export const alongRow: Bell = { rows: 1, columns: 4, sigmaRow: 0.9, sigmaColumn: 2 };
export const alongColumn: Bell = { rows: 4, columns: 1, sigmaRow: 2, sigmaColumn: 0.9 };
export const around: Bell = { rows: 3, columns: 3, sigmaRow: 1.1, sigmaColumn: 1.1 };

/**
 * Green along one direction: the mean of green, and what the sample itself lies above the mean of its own colour there. At
 * green it is the sample.
 */
export function greenTaps(filters: readonly number[], y: number, x: number, bell: Bell): Tap[] {
  const own = filterOfSix(filters, y, x);
  const itself: Tap = { row: 0, column: 0, weight: 1 };
  if (own === 1) return [itself];
  const less = meanTaps(filters, y, x, own, bell).map((tap) => ({ ...tap, weight: -tap.weight }));
  return [...meanTaps(filters, y, x, 1, bell), ...less, itself];
}

/** What a colour lies above green, from where that is known; at its own samples it is known. */
export function differenceTaps(filters: readonly number[], y: number, x: number, colour: number): Tap[] {
  if (filterOfSix(filters, y, x) === colour) return [{ row: 0, column: 0, weight: 1 }];
  return meanTaps(filters, y, x, colour, around);
}
