/** Marks values nearer to 0 than `limit`: 1, else 0, and 0 for what is no number. */
export function markWithin(values: Float32Array, limit: number, out: Uint8Array): void {
  if (out.length < values.length) throw new RangeError('markWithin: sizes differ');
  for (let at = 0; at < values.length; at++) out[at] = Math.abs(values[at]) < limit ? 1 : 0;
}

/** Places 0 … `count` - 1: all of a plane. */
export function everyPlace(count: number): Int32Array {
  const places = new Int32Array(count);
  for (let at = 0; at < count; at++) places[at] = at;
  return places;
}
