/** Mosaic to a half-size display picture. Kernel; lengths are checked by `core/camera-picture.ts`. */
export interface BinInput {
  readonly mosaic: Uint16Array;
  readonly widthPx: number;
  readonly heightPx: number;
  /** At the four places of the RGGB mosaic. */
  readonly blackLevels: readonly number[];
  /** Raw steps above black to entries of `curve`. */
  readonly scale: number;
  readonly balance: Float32Array;
  /** Balanced camera RGB to linear display RGB, row-major. */
  readonly toDisplay: Float32Array;
  readonly curve: Uint8Array;
}

/** Fills `rgb`, interleaved, `(widthPx >> 1) * (heightPx >> 1)` pixels. */
export function binToDisplay(input: BinInput, rgb: Uint8Array): void {
  const { mosaic, widthPx, heightPx, blackLevels, scale, balance, toDisplay, curve } = input;
  const last = curve.length - 1;
  const halfWidth = widthPx >> 1;
  const halfHeight = heightPx >> 1;
  let to = 0;
  for (let row = 0; row < halfHeight; row++) {
    let from = row * 2 * widthPx;
    for (let column = 0; column < halfWidth; column++, from += 2, to += 3) {
      // Balanced channels are cut at the sensor's white, so that a burnt highlight is white and not tinted.
      const red = Math.min(last, (mosaic[from] - blackLevels[0]) * scale * balance[0]);
      const green = Math.min(
        last,
        (mosaic[from + 1] - blackLevels[1] + mosaic[from + widthPx] - blackLevels[2]) * 0.5 * scale,
      );
      const blue = Math.min(last, (mosaic[from + widthPx + 1] - blackLevels[3]) * scale * balance[2]);
      for (let k = 0; k < 3; k++) {
        const value = toDisplay[k * 3] * red + toDisplay[k * 3 + 1] * green + toDisplay[k * 3 + 2] * blue;
        rgb[to + k] = curve[value <= 0 ? 0 : value >= last ? last : (value + 0.5) | 0];
      }
    }
  }
}
