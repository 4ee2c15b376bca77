/**
 * What can be reached from the border over allowed places, by steps to the four neighbours. `allowed`: not 0 where it may
 * be gone; `reached`: 1 where it was, else 0; `queue`: as many places.
 */
export function reachFromBorder(
  allowed: Uint8Array,
  widthPx: number,
  heightPx: number,
  queue: Int32Array,
  reached: Uint8Array,
): void {
  const count = widthPx * heightPx;
  if (allowed.length < count || queue.length < count || reached.length < count) {
    throw new RangeError('reachFromBorder: sizes differ');
  }
  reached.fill(0);
  let end = 0;
  for (let at = 0; at < count; at++) {
    const column = at % widthPx;
    const isBorder = column === 0 || column === widthPx - 1 || at < widthPx || at >= count - widthPx;
    if (isBorder && allowed[at] !== 0) {
      reached[at] = 1;
      queue[end++] = at;
    }
  }
  spread(allowed, widthPx, count, queue, end, reached);
}

/**
 * Bounds of all connected parts that are not reached and have at least `countMin` places: left, top, right, bottom
 * (both ends inside) in `out`; right is below left where there are none. Marks what it looks at in `reached` by 1.
 */
export function boundsOfRest(
  reached: Uint8Array,
  widthPx: number,
  heightPx: number,
  countMin: number,
  queue: Int32Array,
  out: Int32Array,
): void {
  const count = widthPx * heightPx;
  if (queue.length < count || reached.length < count || out.length !== 4) {
    throw new RangeError('boundsOfRest: sizes differ');
  }
  out[0] = widthPx;
  out[1] = heightPx;
  out[2] = -1;
  out[3] = -1;
  for (let start = 0; start < count; start++) {
    if (reached[start] !== 0) continue;
    reached[start] = 1;
    queue[0] = start;
    const end = spread(null, widthPx, count, queue, 1, reached);
    if (end < countMin) continue;
    for (let k = 0; k < end; k++) {
      const row = Math.floor(queue[k] / widthPx);
      const column = queue[k] - row * widthPx;
      if (column < out[0]) out[0] = column;
      if (row < out[1]) out[1] = row;
      if (column > out[2]) out[2] = column;
      if (row > out[3]) out[3] = row;
    }
  }
}

/** On from the places in the queue; gives the queue's end. */
function spread(
  allowed: Uint8Array | null,
  widthPx: number,
  count: number,
  queue: Int32Array,
  from: number,
  reached: Uint8Array,
): number {
  let end = from;
  for (let head = 0; head < end; head++) {
    const at = queue[head];
    const column = at % widthPx;
    for (let side = 0; side < 4; side++) {
      let next = at;
      if (side === 0) next = column > 0 ? at - 1 : -1;
      else if (side === 1) next = column < widthPx - 1 ? at + 1 : -1;
      else if (side === 2) next = at - widthPx;
      else next = at + widthPx < count ? at + widthPx : -1;
      if (next < 0 || reached[next] !== 0 || (allowed !== null && allowed[next] === 0)) continue;
      reached[next] = 1;
      queue[end++] = next;
    }
  }
  return end;
}
