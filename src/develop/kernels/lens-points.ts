/**
 * Steps of a lens correction on `count` points, in place: `xs`, `ys` are positions in pixels of the area, `gains` what the
 * light found there is multiplied by. References: `lens/lens-reference.ts`. `unit` is the distance of the far corner.
 */
export function warpPoints(
  xs: Float64Array,
  ys: Float64Array,
  count: number,
  radial: Float64Array,
  tangential0: number,
  tangential1: number,
  low: number,
  high: number,
  isReciprocal: boolean,
  centreX: number,
  centreY: number,
  unit: number,
): void {
  if (xs.length < count || ys.length < count) throw new RangeError('warpPoints: sizes differ');
  const last = radial.length - 1;
  const perUnit = 1 / unit;
  for (let i = 0; i < count; i++) {
    const dx = (xs[i] - centreX) * perUnit;
    const dy = (ys[i] - centreY) * perUnit;
    const squared = dx * dx + dy * dy;
    const r = Math.min(high, Math.max(low, Math.sqrt(squared)));
    let f = radial[last];
    for (let power = last - 1; power >= 0; power--) f = f * r + radial[power];
    if (isReciprocal) f = 1 / f;
    const across = 2 * dx * dy;
    xs[i] = centreX + unit * (f * dx + tangential0 * across + tangential1 * (squared + 2 * dx * dx));
    ys[i] = centreY + unit * (f * dy + tangential1 * across + tangential0 * (squared + 2 * dy * dy));
  }
}

export function fisheyePoints(
  xs: Float64Array,
  ys: Float64Array,
  count: number,
  k0: number,
  k1: number,
  k2: number,
  k3: number,
  centreX: number,
  centreY: number,
  unit: number,
): void {
  if (xs.length < count || ys.length < count) throw new RangeError('fisheyePoints: sizes differ');
  const perUnit = 1 / unit;
  for (let i = 0; i < count; i++) {
    const dx = (xs[i] - centreX) * perUnit;
    const dy = (ys[i] - centreY) * perUnit;
    const r = Math.sqrt(dx * dx + dy * dy);
    const angle = Math.atan(r);
    const squared = angle * angle;
    // At the centre angle and distance are one.
    const f = r > 0 ? (angle * (k0 + squared * (k1 + squared * (k2 + squared * k3)))) / r : k0;
    xs[i] = centreX + unit * f * dx;
    ys[i] = centreY + unit * f * dy;
  }
}

/** `k`: five coefficients. */
export function radialGains(
  xs: Float64Array,
  ys: Float64Array,
  gains: Float64Array,
  count: number,
  k: Float64Array,
  centreX: number,
  centreY: number,
  unit: number,
): void {
  if (xs.length < count || ys.length < count || gains.length < count || k.length !== 5) {
    throw new RangeError('radialGains: sizes differ');
  }
  const perUnit = 1 / unit;
  for (let i = 0; i < count; i++) {
    const dx = (xs[i] - centreX) * perUnit;
    const dy = (ys[i] - centreY) * perUnit;
    const s = dx * dx + dy * dy;
    gains[i] *= 1 + s * (k[0] + s * (k[1] + s * (k[2] + s * (k[3] + s * k[4]))));
  }
}

/**
 * `map`: gains of one plane, row by row, pointsV x pointsH. `numbers`: top, left, bottom, right within which it holds;
 * then what turns a position into one on the map: shift and factor down, shift and factor across.
 */
export function mapGains(
  xs: Float64Array,
  ys: Float64Array,
  gains: Float64Array,
  count: number,
  map: Float32Array,
  pointsV: number,
  pointsH: number,
  numbers: Float64Array,
): void {
  if (xs.length < count || ys.length < count || gains.length < count || map.length !== pointsV * pointsH) {
    throw new RangeError('mapGains: sizes differ');
  }
  for (let i = 0; i < count; i++) {
    const x = xs[i];
    const y = ys[i];
    if (y < numbers[0] || x < numbers[1] || y >= numbers[2] || x >= numbers[3]) continue;
    const v = Math.min(pointsV - 1, Math.max(0, (y + numbers[4]) * numbers[5]));
    const h = Math.min(pointsH - 1, Math.max(0, (x + numbers[6]) * numbers[7]));
    const v0 = Math.min(pointsV - 1, v | 0);
    const h0 = Math.min(pointsH - 1, h | 0);
    const down = v0 + 1 < pointsV ? pointsH : 0;
    const across = h0 + 1 < pointsH ? 1 : 0;
    const at = v0 * pointsH + h0;
    const fv = v - v0;
    const fh = h - h0;
    const upper = map[at] + (map[at + across] - map[at]) * fh;
    const lower = map[at + down] + (map[at + down + across] - map[at + down]) * fh;
    gains[i] *= upper + (lower - upper) * fv;
  }
}
