/** Four floats at a time: what several of the kernels do with them. */

@inline
export function number(p: usize, index: u32): v128 {
  return v128.load32_splat(p + (index << 2));
}

/** Part of the way to a target. */
@inline
export function towards(value: v128, target: v128, share: v128): v128 {
  return f32x4.add(value, f32x4.mul(share, f32x4.sub(target, value)));
}

/** A table at four positions from 0 on. Each lane's pair of neighbouring samples comes in one load of 64 bits. */
@inline
export function sampled(position: v128, samples: usize): v128 {
  const index = i32x4.trunc_sat_f32x4_s(position);
  const share = f32x4.sub(position, f32x4.convert_i32x4_s(index));
  const pair0 = v128.load64_zero(samples + (i32x4.extract_lane(index, 0) << 2));
  const pairs01 = v128.load64_lane(samples + (i32x4.extract_lane(index, 1) << 2), pair0, 1);
  const pair2 = v128.load64_zero(samples + (i32x4.extract_lane(index, 2) << 2));
  const pairs23 = v128.load64_lane(samples + (i32x4.extract_lane(index, 3) << 2), pair2, 1);
  const before = v128.shuffle<f32>(pairs01, pairs23, 0, 2, 4, 6);
  const after = v128.shuffle<f32>(pairs01, pairs23, 1, 3, 5, 7);
  return towards(before, after, share);
}

@inline
export function times(factor: f32, value: v128): v128 {
  return f32x4.mul(f32x4.splat(factor), value);
}

/** The channels of four pixels out of twelve floats, r g b r | g b r g | b r g b. */
@inline
export function redOf(first: v128, second: v128, third: v128): v128 {
  return v128.shuffle<f32>(v128.shuffle<f32>(first, second, 0, 3, 6, 6), third, 0, 1, 2, 5);
}

@inline
export function greenOf(first: v128, second: v128, third: v128): v128 {
  return v128.shuffle<f32>(v128.shuffle<f32>(first, second, 1, 4, 7, 7), third, 0, 1, 2, 6);
}

@inline
export function blueOf(first: v128, second: v128, third: v128): v128 {
  return v128.shuffle<f32>(v128.shuffle<f32>(first, second, 2, 5, 5, 5), third, 0, 1, 4, 7);
}

/** The same back. */
@inline
export function storeRgb(to: usize, r: v128, g: v128, b: v128): void {
  const rg01 = v128.shuffle<f32>(r, g, 0, 4, 1, 5);
  const rg23 = v128.shuffle<f32>(r, g, 2, 6, 3, 7);
  const gb1 = v128.shuffle<f32>(rg01, b, 3, 5, 3, 5);
  v128.store(to, v128.shuffle<f32>(rg01, b, 0, 1, 4, 2));
  v128.store(to, v128.shuffle<f32>(gb1, rg23, 0, 1, 4, 5), 16);
  v128.store(to, v128.shuffle<f32>(rg23, b, 6, 2, 3, 7), 32);
}
