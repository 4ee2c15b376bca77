import { mirrored } from './balance-rows.ts';

/**
 * Smooths a plane in place. Reference: `smoothReference` in local/smooth-reference.ts. `limits[j]`: what counts as noise on
 * level j, squared. `scratch` holds four planes.
 */
export function smoothPlane(
  plane: Float32Array,
  widthPx: number,
  heightPx: number,
  limits: Float64Array,
  scratch: Float32Array,
): void {
  const count = widthPx * heightPx;
  if (plane.length < count || scratch.length < 4 * count) throw new RangeError('smoothPlane: sizes differ');
  const one = scratch.subarray(0, count);
  const other = scratch.subarray(count, 2 * count);
  const energy = scratch.subarray(2 * count, 3 * count);
  const kept = scratch.subarray(3 * count, 4 * count);
  const source = plane.subarray(0, count);
  one.set(source);
  kept.fill(0);
  for (let level = 0; level < limits.length; level++) {
    const step = 1 << level;
    alongRows(one, widthPx, heightPx, step, energy);
    alongColumns(energy, widthPx, heightPx, step, other);
    // `one` becomes this level's differences, `other` is what is left for the next.
    for (let i = 0; i < count; i++) one[i] -= other[i];
    sumOfSquares(one, widthPx, heightPx, step, energy, source);
    const limit = 9 * limits[level];
    for (let i = 0; i < count; i++) {
      const found = source[i];
      if (found > limit) kept[i] += one[i] * (1 - (limit * limit) / (found * found));
    }
    one.set(other);
  }
  for (let i = 0; i < count; i++) source[i] = kept[i] + one[i];
}

/** (1 4 6 4 1) / 16 with holes, along rows. */
function alongRows(
  from: Float32Array,
  widthPx: number,
  heightPx: number,
  step: number,
  to: Float32Array,
): void {
  const far = 2 * step;
  const inner = Math.max(far, widthPx - far);
  for (let row = 0; row < heightPx; row++) {
    const line = row * widthPx;
    for (let x = 0; x < widthPx; x++) {
      // Only ends need mirroring.
      if (x === far && inner > far) {
        for (; x < inner; x++) {
          const at = line + x;
          to[at] =
            (from[at - far] + from[at + far] + 4 * (from[at - step] + from[at + step]) + 6 * from[at]) *
            0.0625;
        }
        if (x >= widthPx) break;
      }
      const a = from[line + mirrored(x - far, widthPx)];
      const e = from[line + mirrored(x + far, widthPx)];
      const b = from[line + mirrored(x - step, widthPx)];
      const d = from[line + mirrored(x + step, widthPx)];
      to[line + x] = (a + e + 4 * (b + d) + 6 * from[line + x]) * 0.0625;
    }
  }
}

function alongColumns(
  from: Float32Array,
  widthPx: number,
  heightPx: number,
  step: number,
  to: Float32Array,
): void {
  for (let row = 0; row < heightPx; row++) {
    const a = mirrored(row - 2 * step, heightPx) * widthPx;
    const b = mirrored(row - step, heightPx) * widthPx;
    const c = row * widthPx;
    const d = mirrored(row + step, heightPx) * widthPx;
    const e = mirrored(row + 2 * step, heightPx) * widthPx;
    for (let x = 0; x < widthPx; x++) {
      to[c + x] = (from[a + x] + from[e + x] + 4 * (from[b + x] + from[d + x]) + 6 * from[c + x]) * 0.0625;
    }
  }
}

/** Squares summed over the nine places around that are `step` apart. */
function sumOfSquares(
  from: Float32Array,
  widthPx: number,
  heightPx: number,
  step: number,
  rows: Float32Array,
  to: Float32Array,
): void {
  for (let row = 0; row < heightPx; row++) {
    const line = row * widthPx;
    for (let x = 0; x < widthPx; x++) {
      const left = from[line + (x >= step ? x - step : mirrored(x - step, widthPx))];
      const right = from[line + (x + step < widthPx ? x + step : mirrored(x + step, widthPx))];
      const here = from[line + x];
      rows[line + x] = left * left + here * here + right * right;
    }
  }
  for (let row = 0; row < heightPx; row++) {
    const up = mirrored(row - step, heightPx) * widthPx;
    const here = row * widthPx;
    const down = mirrored(row + step, heightPx) * widthPx;
    for (let x = 0; x < widthPx; x++) to[here + x] = rows[up + x] + rows[here + x] + rows[down + x];
  }
}
