/** A scalar field on a regular grid, read with bilinear interpolation. */
export interface Grid {
  /** `values[row * columns + column]`. */
  readonly values: Float32Array;
  readonly columns: number;
  readonly rows: number;
  /** Position of the first value, mm. */
  readonly left: number;
  readonly bottom: number;
  readonly perMm: number;
}

/** The field at (x, y), mm; beyond the grid its edge is repeated. */
export function sampleGrid(grid: Grid, x: number, y: number): number {
  const { values, columns } = grid;
  const u = (x - grid.left) * grid.perMm;
  const v = (y - grid.bottom) * grid.perMm;
  const lastU = columns - 1.001;
  const lastV = grid.rows - 1.001;
  const cu = u < 0 ? 0 : Math.min(u, lastU);
  const cv = v < 0 ? 0 : Math.min(v, lastV);
  const iu = cu | 0;
  const iv = cv | 0;
  const fu = cu - iu;
  const fv = cv - iv;
  const at = iv * columns + iu;
  const low = values[at] + (values[at + 1] - values[at]) * fu;
  const high = values[at + columns] + (values[at + columns + 1] - values[at + columns]) * fu;
  return low + (high - low) * fv;
}
