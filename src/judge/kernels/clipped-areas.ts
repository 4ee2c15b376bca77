/**
 * Marks the 2x2 blocks of a mosaic in which a sample has reached its limit: 1, else 0. `limits`: of the four places.
 * `out`: (widthPx >> 1) * (heightPx >> 1).
 */
export function clippedBlocks(
  values: Uint16Array,
  widthPx: number,
  heightPx: number,
  limits: Float64Array,
  out: Uint8Array,
): void {
  const outWidth = widthPx >> 1;
  const outHeight = heightPx >> 1;
  if (values.length < widthPx * heightPx || out.length < outWidth * outHeight || limits.length !== 4) {
    throw new RangeError('clippedBlocks: sizes differ');
  }
  // Whole numbers are compared without being turned into fractions; a limit beyond all values stays beyond them.
  const [a, b, c, d] = Int32Array.from(limits, (limit) => Math.ceil(Math.min(limit, 65_536)));
  let to = 0;
  for (let row = 0; row < outHeight; row++) {
    let at = 2 * row * widthPx;
    for (let column = 0; column < outWidth; column++) {
      // Written without branches, which nothing foretells where light glitters.
      out[to++] =
        (values[at] >= a ? 1 : 0) |
        (values[at + 1] >= b ? 1 : 0) |
        (values[at + widthPx] >= c ? 1 : 0) |
        (values[at + widthPx + 1] >= d ? 1 : 0);
      at += 2;
    }
  }
}

/** The same for each pixel of an 8-bit picture: a channel at its last code. */
export function clippedPixels(rgb: Uint8Array, out: Uint8Array): void {
  if (rgb.length < out.length * 3) throw new RangeError('clippedPixels: sizes differ');
  for (let to = 0, at = 0; to < out.length; to++, at += 3) {
    out[to] = rgb[at] === 255 || rgb[at + 1] === 255 || rgb[at + 2] === 255 ? 1 : 0;
  }
}

/** Numbers of one area: pixels, and 1 where it touches the border. */
export const areaNumbers = 2;

/**
 * The connected areas (by edges and corners) of a mask, found by runs of rows that touch. `out[k * areaNumbers]` are the
 * pixels of area k, `out[k * areaNumbers + 1]` whether it touches the border. Returns how many there are; where `out` has no
 * room for more, the last one takes the rest.
 */
export function connectedAreas(
  mask: Uint8Array,
  widthPx: number,
  heightPx: number,
  out: Float64Array,
): number {
  if (mask.length < widthPx * heightPx) throw new RangeError('connectedAreas: sizes differ');
  const room = Math.floor(out.length / areaNumbers);
  const parent = new Int32Array(room);
  const pixels = new Float64Array(room);
  const border = new Uint8Array(room);
  // Of the row above and of this one: first column, column behind the last, label.
  let above = new Int32Array(3 * (widthPx + 1));
  let here = new Int32Array(3 * (widthPx + 1));
  let aboveRuns = 0;
  let labels = 0;
  for (let row = 0; row < heightPx; row++) {
    const start = row * widthPx;
    let runs = 0;
    let over = 0;
    for (let column = 0; column < widthPx; column++) {
      if (mask[start + column] === 0) continue;
      const first = column;
      while (column < widthPx && mask[start + column] !== 0) column++;
      let label = -1;
      // Runs above that end before this one begins touch no later one either.
      while (over < aboveRuns && above[3 * over + 1] < first) over++;
      for (let run = over; run < aboveRuns && above[3 * run] <= column; run++) {
        const other = rootOf(parent, above[3 * run + 2]);
        if (label < 0) label = other;
        else if (other !== label) {
          const [low, high] = other < label ? [other, label] : [label, other];
          parent[high] = low;
          pixels[low] += pixels[high];
          border[low] |= border[high];
          label = low;
        }
      }
      if (label < 0) {
        label = Math.min(labels, room - 1);
        if (labels < room) {
          parent[label] = label;
          labels++;
        }
      }
      pixels[label] += column - first;
      if (row === 0 || row === heightPx - 1 || first === 0 || column === widthPx) border[label] = 1;
      here[3 * runs] = first;
      here[3 * runs + 1] = column;
      here[3 * runs + 2] = label;
      runs++;
    }
    const swap = above;
    above = here;
    here = swap;
    aboveRuns = runs;
  }
  let count = 0;
  for (let label = 0; label < labels; label++) {
    if (parent[label] !== label) continue;
    out[count * areaNumbers] = pixels[label];
    out[count * areaNumbers + 1] = border[label];
    count++;
  }
  return count;
}

function rootOf(parent: Int32Array, label: number): number {
  let root = label;
  while (parent[root] !== root) root = parent[root];
  // The way is shortened, so that the next question is answered at once.
  let at = label;
  while (parent[at] !== root) {
    const next = parent[at];
    parent[at] = root;
    at = next;
  }
  return root;
}
