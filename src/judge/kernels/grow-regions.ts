/** Numbers that {@link growRegions} gives of each region: pixels, centre x, y, second central moments xx, xy, yy (px²). */
export const regionNumbers = 6;

/**
 * Parts a picture into regions of one colour and gives their moments. A region grows from a pixel that looks like its
 * four neighbours, and takes what differs by less than `tolerance` in every channel from the mean of the region so far, so
 * that it does not leak through an edge that is only soft.
 *
 * `values`: three channels, interleaved. `labels`: scratch, one for each pixel; `stack`: scratch of the same length.
 * `regions`: room for as many regions as are wanted; those under `pixelsMin` or over `pixelsMax` are not told.
 * Returns how many were told.
 */
export function growRegions(
  values: Float32Array,
  widthPx: number,
  heightPx: number,
  tolerance: number,
  pixelsMin: number,
  pixelsMax: number,
  labels: Uint8Array,
  stack: Int32Array,
  regions: Float64Array,
): number {
  const pixels = widthPx * heightPx;
  if (values.length < pixels * 3 || labels.length < pixels || stack.length < pixels) {
    throw new RangeError('growRegions: sizes differ');
  }
  const regionsMax = Math.floor(regions.length / 6);
  const below = -tolerance;
  const line = 3 * widthPx;
  let count = 0;
  labels.fill(0);
  for (let seedY = 1; seedY < heightPx - 1; seedY++) {
    for (let seedX = 1; seedX < widthPx - 1; seedX++) {
      const seed = seedY * widthPx + seedX;
      if (labels[seed] !== 0) continue;
      const s = seed * 3;
      let meanR = values[s];
      let meanG = values[s + 1];
      let meanB = values[s + 2];
      let isFlat = true;
      for (let side = 0; side < 4 && isFlat; side++) {
        const n = s + 3 * (side === 0 ? 1 : side === 1 ? -1 : side === 2 ? widthPx : -widthPx);
        isFlat =
          Math.abs(values[n] - meanR) < tolerance &&
          Math.abs(values[n + 1] - meanG) < tolerance &&
          Math.abs(values[n + 2] - meanB) < tolerance;
      }
      if (!isFlat) continue;
      let size = 0;
      let sx = 0;
      let sy = 0;
      let sxx = 0;
      let sxy = 0;
      let syy = 0;
      let top = 0;
      stack[top++] = seed;
      labels[seed] = 1;
      while (top > 0) {
        const at = stack[--top];
        const v = at * 3;
        const y = (at / widthPx) | 0;
        const x = at - y * widthPx;
        size++;
        const share = 1 / size;
        meanR += (values[v] - meanR) * share;
        meanG += (values[v + 1] - meanG) * share;
        meanB += (values[v + 2] - meanB) * share;
        // About the seed, so that the sums keep their digits.
        const dx = x - seedX;
        const dy = y - seedY;
        sx += dx;
        sy += dy;
        sxx += dx * dx;
        sxy += dx * dy;
        syy += dy * dy;
        // The four sides written out: this is where a search spends its time.
        if (x < widthPx - 1 && labels[at + 1] === 0) {
          const r = values[v + 3] - meanR;
          const g = values[v + 4] - meanG;
          const b = values[v + 5] - meanB;
          if (r < tolerance && r > below && g < tolerance && g > below && b < tolerance && b > below) {
            labels[at + 1] = 1;
            stack[top++] = at + 1;
          }
        }
        if (x > 0 && labels[at - 1] === 0) {
          const r = values[v - 3] - meanR;
          const g = values[v - 2] - meanG;
          const b = values[v - 1] - meanB;
          if (r < tolerance && r > below && g < tolerance && g > below && b < tolerance && b > below) {
            labels[at - 1] = 1;
            stack[top++] = at - 1;
          }
        }
        if (at + widthPx < pixels && labels[at + widthPx] === 0) {
          const r = values[v + line] - meanR;
          const g = values[v + line + 1] - meanG;
          const b = values[v + line + 2] - meanB;
          if (r < tolerance && r > below && g < tolerance && g > below && b < tolerance && b > below) {
            labels[at + widthPx] = 1;
            stack[top++] = at + widthPx;
          }
        }
        if (at >= widthPx && labels[at - widthPx] === 0) {
          const r = values[v - line] - meanR;
          const g = values[v - line + 1] - meanG;
          const b = values[v - line + 2] - meanB;
          if (r < tolerance && r > below && g < tolerance && g > below && b < tolerance && b > below) {
            labels[at - widthPx] = 1;
            stack[top++] = at - widthPx;
          }
        }
      }
      if (size < pixelsMin || size > pixelsMax || count >= regionsMax) continue;
      const to = count++ * 6;
      const mx = sx / size;
      const my = sy / size;
      regions[to] = size;
      regions[to + 1] = seedX + mx;
      regions[to + 2] = seedY + my;
      // A pixel is a square: 1/12 of its own.
      regions[to + 3] = sxx / size - mx * mx + 1 / 12;
      regions[to + 4] = sxy / size - mx * my;
      regions[to + 5] = syy / size - my * my + 1 / 12;
    }
  }
  return count;
}
