/**
 * Turns `count` pixels of balanced camera RGB into display-linear RGB of the output space, in place.
 * Reference: `renderPixel` in reference.ts. `samples` is empty where there is no curve.
 */
export function renderLight(
  rgb: Float32Array,
  count: number,
  toScene: Float64Array,
  samples: Float32Array,
  sceneWhite: number,
  slopeAtBlack: number,
  toOutput: Float64Array,
  luminance: Float64Array,
): void {
  if (rgb.length < count * 3 || toScene.length !== 9 || toOutput.length !== 9 || luminance.length !== 3) {
    throw new RangeError('renderLight: sizes differ');
  }
  const s0 = toScene[0];
  const s1 = toScene[1];
  const s2 = toScene[2];
  const s3 = toScene[3];
  const s4 = toScene[4];
  const s5 = toScene[5];
  const s6 = toScene[6];
  const s7 = toScene[7];
  const s8 = toScene[8];
  const o0 = toOutput[0];
  const o1 = toOutput[1];
  const o2 = toOutput[2];
  const o3 = toOutput[3];
  const o4 = toOutput[4];
  const o5 = toOutput[5];
  const o6 = toOutput[6];
  const o7 = toOutput[7];
  const o8 = toOutput[8];
  const weightR = luminance[0];
  const weightG = luminance[1];
  const weightB = luminance[2];
  const last = samples.length - 1;
  const curved = last > 0;
  // The square root and the division by sceneWhite in one factor: sqrt(x / w) * last = sqrt(x) * (last / sqrt(w)).
  const toPosition = curved ? last / Math.sqrt(sceneWhite) : 0;

  const end = count * 3;
  for (let i = 0; i < end; i += 3) {
    const x = rgb[i];
    const y = rgb[i + 1];
    const z = rgb[i + 2];
    let r = s0 * x + s1 * y + s2 * z;
    let g = s3 * x + s4 * y + s5 * z;
    let b = s6 * x + s7 * y + s8 * z;

    if (curved) {
      const high = Math.max(r, g, b);
      const low = Math.min(r, g, b);
      let highOut = 1;
      if (high <= 0) {
        highOut = high * slopeAtBlack;
      } else if (high < sceneWhite) {
        const position = Math.sqrt(high) * toPosition;
        const index = position | 0;
        const before = samples[index];
        highOut = before + (samples[index + 1] - before) * (position - index);
      }
      let lowOut = 1;
      if (low <= 0) {
        lowOut = low * slopeAtBlack;
      } else if (low < sceneWhite) {
        const position = Math.sqrt(low) * toPosition;
        const index = position | 0;
        const before = samples[index];
        lowOut = before + (samples[index + 1] - before) * (position - index);
      }
      const k = high > low ? (highOut - lowOut) / (high - low) : 0;
      r = lowOut + k * (r - low);
      g = lowOut + k * (g - low);
      b = lowOut + k * (b - low);
    }

    let outR = o0 * r + o1 * g + o2 * b;
    let outG = o3 * r + o4 * g + o5 * b;
    let outB = o6 * r + o7 * g + o8 * b;
    // Six comparisons instead of a largest and a smallest: nearly every pixel fits.
    if (outR < 0 || outG < 0 || outB < 0 || outR > 1 || outG > 1 || outB > 1) {
      const high = Math.max(outR, outG, outB);
      const low = Math.min(outR, outG, outB);
      const Y = Math.min(1, Math.max(0, weightR * outR + weightG * outG + weightB * outB));
      const keepLow = low < 0 ? Y / (Y - low) : 1;
      const keepHigh = high > 1 ? (1 - Y) / (high - Y) : 1;
      const keep = Math.min(keepLow, keepHigh);
      outR = Y + keep * (outR - Y);
      outG = Y + keep * (outG - Y);
      outB = Y + keep * (outB - Y);
    }
    rgb[i] = outR;
    rgb[i + 1] = outG;
    rgb[i + 2] = outB;
  }
}
