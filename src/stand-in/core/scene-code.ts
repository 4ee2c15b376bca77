/**
 * Renderings are kept as 16-bit codes, square-root coded from 0 to 16: fine in the shadows, wide enough for a glaze
 * highlight, a sixth of the room of floats. One code at 18 per cent grey is 0.03 per cent of it, forty times below
 * the photon noise of a pixel there.
 */
export const sceneValueMax = 16;

/** Linear scene value of each code, 65,536 entries. */
export function sceneDecodeTable(): Float32Array {
  return Float32Array.from({ length: 65_536 }, (_, code) => (code / 65_535) ** 2 * sceneValueMax);
}

/** The code of a linear scene value; clamped to 0 … {@link sceneValueMax}. */
export function sceneCode(value: number): number {
  return Math.round(Math.sqrt(Math.min(1, Math.max(0, value / sceneValueMax))) * 65_535);
}
