/** Numbers of one sample: across the edge, along it (pixels from the middle), value above black. */
export const sampleNumbers = 3;

/**
 * The samples within an upright or slanted rectangle about (centreX, centreY), at their true places: nothing is
 * interpolated. Across is measured along the normal (cos, sin), along at right angles to it. Returns how many there are;
 * no more than `out` holds are taken.
 *
 * `blacks`, `greenParity`: as in `halfLight`. Places are pixel centres: the first pixel lies at 0, 0. `stride`: of so many
 * samples across and down one is taken.
 */
export function edgeSamples(
  values: Uint16Array,
  widthPx: number,
  heightPx: number,
  greenParity: number,
  blacks: Float64Array,
  centreX: number,
  centreY: number,
  normalX: number,
  normalY: number,
  halfAcross: number,
  halfAlong: number,
  stride: number,
  out: Float64Array,
): number {
  if (values.length < widthPx * heightPx || blacks.length !== 2)
    throw new RangeError('edgeSamples: sizes differ');
  const reachX = Math.abs(normalX) * halfAcross + Math.abs(normalY) * halfAlong;
  const reachY = Math.abs(normalY) * halfAcross + Math.abs(normalX) * halfAlong;
  const top = Math.max(0, Math.ceil(centreY - reachY));
  const bottom = Math.min(heightPx - 1, Math.floor(centreY + reachY));
  const left = Math.max(0, Math.ceil(centreX - reachX));
  const right = Math.min(widthPx - 1, Math.floor(centreX + reachX));
  const room = Math.floor(out.length / sampleNumbers);
  const step = greenParity < 0 ? stride : 2 * stride;
  let count = 0;
  for (let y = top; y <= bottom; y += stride) {
    const dy = y - centreY;
    const black = blacks[y & 1];
    const first = greenParity < 0 ? left : left + ((left + y + greenParity) & 1);
    for (let x = first; x <= right; x += step) {
      const dx = x - centreX;
      const across = dx * normalX + dy * normalY;
      const along = dy * normalX - dx * normalY;
      if (across < -halfAcross || across > halfAcross || along < -halfAlong || along > halfAlong) continue;
      if (count === room) return count;
      const to = count * sampleNumbers;
      out[to] = across;
      out[to + 1] = along;
      out[to + 2] = values[y * widthPx + x] - black;
      count++;
    }
  }
  return count;
}
