/** The 6 x 6 pattern of the trade (common practice, no source): 0 red, 1 green, 2 blue, row by row. */
export const sixFilters: readonly number[] = [
  [1, 2, 1, 1, 0, 1],
  [0, 1, 0, 2, 1, 2],
  [1, 2, 1, 1, 0, 1],
  [1, 0, 1, 1, 2, 1],
  [2, 1, 2, 0, 1, 0],
  [1, 0, 1, 1, 2, 1],
].flat();

/** Red, green, green, blue, each a square of 2 x 2. */
export const quadFilters: readonly number[] = [
  [0, 0, 1, 1],
  [0, 0, 1, 1],
  [1, 1, 2, 2],
  [1, 1, 2, 2],
].flat();
