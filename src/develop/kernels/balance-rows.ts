import { rootFoot } from './root-scale.ts';

/**
 * A window of a mosaic on the root scale (see root-scale.ts) of balanced light, black taken off: `out` gets
 * width x height floats, the root of light + rootFoot, 0 for what is darker. The window lies at `left`,
 * `top`, and may reach beyond the mosaic, which is mirrored there at its first and last sample (again and again where it is
 * small), so that each filter keeps its place: column -1 reads column 1. The mosaic is at least 3 x 3.
 * Reference: `rootAt` in demosaic-reference.ts.
 *
 * `numbers` (length 8 or more): black of positions 0-3, scale of positions 0-3.
 */
export function balanceRows(
  values: Uint16Array,
  widthPx: number,
  heightPx: number,
  left: number,
  top: number,
  width: number,
  height: number,
  numbers: Float64Array,
  out: Float32Array,
): void {
  if (values.length < widthPx * heightPx || out.length < width * height || numbers.length < 8) {
    throw new RangeError('balanceRows: sizes differ');
  }
  if (Math.min(widthPx, heightPx) < 3) throw new RangeError('balanceRows: the mosaic is too small');
  const insideStart = Math.max(0, -left);
  const insideEnd = Math.min(width, widthPx - left);
  for (let row = 0; row < height; row++) {
    const y = mirrored(top + row, heightPx);
    const from = y * widthPx + left;
    const to = row * width;
    for (let start = insideStart; start < insideStart + 2; start++) {
      const position = (y & 1) * 2 + ((left + start) & 1);
      const scale = numbers[4 + position];
      const foot = rootFoot - numbers[position] * scale;
      for (let column = start; column < insideEnd; column += 2) {
        const light = values[from + column] * scale + foot;
        out[to + column] = light > 0 ? Math.sqrt(light) : 0;
      }
    }
    for (let column = 0; column < insideStart; column++)
      out[to + column] = out[to - left + mirrored(left + column, widthPx)];
    for (let column = insideEnd; column < width; column++)
      out[to + column] = out[to - left + mirrored(left + column, widthPx)];
  }
}

/** Within 0 … count - 1, by reflection at the first and the last. Even steps stay even. */
export function mirrored(at: number, count: number): number {
  // One sample is its own mirror.
  const period = Math.max(1, 2 * (count - 1));
  const within = ((at % period) + period) % period;
  return within < count ? within : period - within;
}
