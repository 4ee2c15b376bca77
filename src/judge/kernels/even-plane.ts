/** What is left when slow light is taken off, and its square: `even[k] = plane[k] - slow[k]`, `squares[k] = even[k]²`. */
export function takeSlowOff(
  plane: Float32Array,
  slow: Float32Array,
  even: Float32Array,
  squares: Float32Array,
): void {
  const count = plane.length;
  if (slow.length < count || even.length < count || squares.length < count) {
    throw new RangeError('takeSlowOff: sizes differ');
  }
  for (let at = 0; at < count; at++) {
    const rest = plane[at] - slow[at];
    even[at] = rest;
    squares[at] = rest * rest;
  }
}

/** Square roots in place; what sums have left below nothing is nothing. */
export function rootPlane(plane: Float32Array): void {
  for (let at = 0; at < plane.length; at++) plane[at] = Math.sqrt(Math.max(0, plane[at]));
}

/** `out[k] = even[k] / (strength[k] + floor)`, held within -`most` … `most`. */
export function evenContrast(
  even: Float32Array,
  strength: Float32Array,
  floor: number,
  most: number,
  out: Float32Array,
): void {
  if (strength.length < even.length || out.length < even.length) {
    throw new RangeError('evenContrast: sizes differ');
  }
  for (let at = 0; at < even.length; at++) {
    const value = even[at] / (strength[at] + floor);
    out[at] = Math.max(-most, Math.min(most, value));
  }
}
