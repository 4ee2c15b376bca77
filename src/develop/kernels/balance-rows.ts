/**
 * A run of samples of one row on the root scale (see root-scale.ts) of balanced light, black taken off: `out` gets the root of
 * light + rootFoot from `at` on, 0 for what is darker. Light + rootFoot is value x scale + foot, with the first two numbers for
 * the first, third, fifth … sample and the other two for those between. Reference: `rootAt` in demosaic-reference.ts.
 */
export function rootRow(
  values: Uint16Array,
  from: number,
  count: number,
  scaleA: number,
  footA: number,
  scaleB: number,
  footB: number,
  out: Float32Array,
  at: number,
): void {
  if (values.length < from + count || out.length < at + count) throw new RangeError('rootRow: sizes differ');
  for (let i = 0; i < count; i += 2) {
    const light = values[from + i] * scaleA + footA;
    out[at + i] = light > 0 ? Math.sqrt(light) : 0;
  }
  for (let i = 1; i < count; i += 2) {
    const light = values[from + i] * scaleB + footB;
    out[at + i] = light > 0 ? Math.sqrt(light) : 0;
  }
}

/**
 * A row of `width` samples at `at` that begins at column `left` of a mosaic and reaches beyond it: those from `inside` to
 * `insideEnd` are there, the others mirror them at the mosaic's first and last column (again and again where it is small),
 * so that each filter keeps its place: column -1 is column 1.
 */
export function mirrorRow(
  row: Float32Array,
  at: number,
  width: number,
  inside: number,
  insideEnd: number,
  left: number,
  widthPx: number,
): void {
  if (row.length < at + width) throw new RangeError('mirrorRow: sizes differ');
  const zero = at - left;
  for (let column = 0; column < inside; column++)
    row[at + column] = row[zero + mirrored(left + column, widthPx)];
  for (let column = insideEnd; column < width; column++)
    row[at + column] = row[zero + mirrored(left + column, widthPx)];
}

/** Within 0 … count - 1, by reflection at the first and the last. Even steps stay even. */
export function mirrored(at: number, count: number): number {
  // One sample is its own mirror.
  const period = Math.max(1, 2 * (count - 1));
  const within = ((at % period) + period) % period;
  return within < count ? within : period - within;
}
