/** Square-root codes of linear values (`core/scene-code.ts`). Kernel; both arrays have one length. */
export function encodeScene(linear: Float32Array, sceneValueMax: number, codes: Uint16Array): void {
  const scale = 65_535 / Math.sqrt(sceneValueMax);
  for (let k = 0; k < codes.length; k++) {
    const code = Math.sqrt(linear[k]) * scale + 0.5;
    codes[k] = Math.min(code, 65_535);
  }
}
