import { mirrored } from './balance-rows.ts';

/** Share of the range around a pixel that acutance may take it beyond that range: see local/acutance-reference.ts. */
export const overshootShare = 0.125;

/**
 * What acutance makes of the lightness of a plane, as a factor on it. Reference: `liftReference` in
 * local/acutance-reference.ts. `taps`: half of the blur, from its middle outwards; `gate`: what counts as noise;
 * `reachPx`: half edge of the square whose range bounds the result. `scratch` holds three planes.
 */
export function liftPlane(
  lightness: Float32Array,
  widthPx: number,
  heightPx: number,
  taps: Float64Array,
  strength: number,
  gate: number,
  reachPx: number,
  scratch: Float32Array,
  lift: Float32Array,
): void {
  const count = widthPx * heightPx;
  if (lightness.length < count || lift.length < count || scratch.length < 3 * count)
    throw new RangeError('liftPlane: sizes differ');
  const rows = scratch.subarray(0, count);
  const low = scratch.subarray(count, 2 * count);
  const high = scratch.subarray(2 * count, 3 * count);
  blur(lightness, widthPx, heightPx, taps, rows, lift);
  extremes(lightness, widthPx, heightPx, reachPx, rows, low, high);
  const gateSquared = gate * gate;
  for (let i = 0; i < count; i++) {
    const here = lightness[i];
    const detail = here - lift[i];
    const squared = detail * detail;
    let wanted = here;
    if (squared > gateSquared) wanted += strength * detail * (1 - gateSquared / squared);
    const room = overshootShare * (high[i] - low[i]);
    wanted = Math.min(high[i] + room, Math.max(low[i] - room, wanted));
    // At a lightness of 1 there is nothing but noise.
    lift[i] = here > 1 ? Math.max(0, wanted) / here : 1;
  }
}

function blur(
  from: Float32Array,
  widthPx: number,
  heightPx: number,
  taps: Float64Array,
  rows: Float32Array,
  to: Float32Array,
): void {
  const reach = taps.length - 1;
  for (let row = 0; row < heightPx; row++) {
    const line = row * widthPx;
    for (let x = 0; x < widthPx; x++) {
      let sum = taps[0] * from[line + x];
      if (x >= reach && x + reach < widthPx) {
        for (let k = 1; k <= reach; k++) sum += taps[k] * (from[line + x - k] + from[line + x + k]);
      } else {
        for (let k = 1; k <= reach; k++) {
          sum += taps[k] * (from[line + mirrored(x - k, widthPx)] + from[line + mirrored(x + k, widthPx)]);
        }
      }
      rows[line + x] = sum;
    }
  }
  for (let row = 0; row < heightPx; row++) {
    const line = row * widthPx;
    for (let x = 0; x < widthPx; x++) to[line + x] = taps[0] * rows[line + x];
    for (let k = 1; k <= reach; k++) {
      const up = mirrored(row - k, heightPx) * widthPx;
      const down = mirrored(row + k, heightPx) * widthPx;
      const tap = taps[k];
      for (let x = 0; x < widthPx; x++) to[line + x] += tap * (rows[up + x] + rows[down + x]);
    }
  }
}

/** Smallest and largest value of the square of `reach` around; outside the picture there is nothing. */
function extremes(
  from: Float32Array,
  widthPx: number,
  heightPx: number,
  reach: number,
  rows: Float32Array,
  low: Float32Array,
  high: Float32Array,
): void {
  for (let row = 0; row < heightPx; row++) {
    const line = row * widthPx;
    for (let x = 0; x < widthPx; x++) {
      const end = line + Math.min(widthPx - 1, x + reach);
      let least = from[line + x];
      for (let at = line + Math.max(0, x - reach); at <= end; at++) if (from[at] < least) least = from[at];
      rows[line + x] = least;
    }
  }
  alongColumns(rows, widthPx, heightPx, reach, low, -1);
  for (let row = 0; row < heightPx; row++) {
    const line = row * widthPx;
    for (let x = 0; x < widthPx; x++) {
      const end = line + Math.min(widthPx - 1, x + reach);
      let most = from[line + x];
      for (let at = line + Math.max(0, x - reach); at <= end; at++) if (from[at] > most) most = from[at];
      rows[line + x] = most;
    }
  }
  alongColumns(rows, widthPx, heightPx, reach, high, 1);
}

/** The largest (`sign` 1) or smallest (-1) of each column's stretch. */
function alongColumns(
  rows: Float32Array,
  widthPx: number,
  heightPx: number,
  reach: number,
  to: Float32Array,
  sign: number,
): void {
  for (let row = 0; row < heightPx; row++) {
    const here = row * widthPx;
    const last = Math.min(heightPx - 1, row + reach);
    for (let x = 0; x < widthPx; x++) to[here + x] = rows[here + x];
    for (let y = Math.max(0, row - reach); y <= last; y++) {
      const line = y * widthPx;
      for (let x = 0; x < widthPx; x++)
        if (sign * rows[line + x] > sign * to[here + x]) to[here + x] = rows[line + x];
    }
  }
}
