/**
 * Lightens rows of interleaved RGB towards the corners, in place. Reference: `falloffGain` of the room look. `left` and
 * `top`: the first pixel's column and row in the picture, `middleX` and `middleY` the picture's middle in half diagonals,
 * `step` a pixel in them. `k`: see the reference.
 */
export function falloffRows(
  rgb: Float32Array,
  widthPx: number,
  rows: number,
  left: number,
  top: number,
  middleX: number,
  middleY: number,
  step: number,
  k: number,
  darkens: boolean,
): void {
  if (rgb.length < widthPx * rows * 3) throw new RangeError('falloffRows: sizes differ');
  let at = 0;
  for (let row = 0; row < rows; row++) {
    const y = (top + row + 0.5) * step - middleY;
    for (let column = 0; column < widthPx; column++) {
      const x = (left + column + 0.5) * step - middleX;
      const root = 1 + k * (x * x + y * y);
      const gain = darkens ? 1 / (root * root) : root * root;
      rgb[at++] *= gain;
      rgb[at++] *= gain;
      rgb[at++] *= gain;
    }
  }
}
