/** kernels/smooth-plane.ts */
import { mirrored } from './mirror';

/**
 * Smooths a plane in place. `limits`: what counts as noise on each level, squared, 32-bit floats. `scratch`: four planes.
 */
export function smooth(
  plane: usize,
  width: i32,
  height: i32,
  limits: usize,
  levels: i32,
  scratch: usize,
): void {
  const count = width * height;
  const bytes = <usize>count << 2;
  let one = scratch;
  let other = scratch + bytes;
  const energy = scratch + 2 * bytes;
  const kept = scratch + 3 * bytes;
  memory.copy(one, plane, bytes);
  memory.fill(kept, 0, bytes);
  for (let level = 0; level < levels; level++) {
    const step = 1 << level;
    blurRows(one, width, height, step, energy);
    // `one` becomes this level's differences, `other` is what is left for the next.
    blurColumns(energy, width, height, step, one, other);
    squaresOfRows(one, width, height, step, energy);
    keepAbove(energy, width, height, step, 9 * load<f32>(limits + (level << 2)), one, kept);
    const swap = one;
    one = other;
    other = swap;
  }
  const inVectors = count & ~3;
  let i = 0;
  for (; i < inVectors; i += 4) {
    const at = <usize>i << 2;
    v128.store(plane + at, f32x4.add(v128.load(kept + at), v128.load(one + at)));
  }
  for (; i < count; i++) {
    const at = <usize>i << 2;
    store<f32>(plane + at, load<f32>(kept + at) + load<f32>(one + at));
  }
}

/** (1 4 6 4 1) / 16 with holes, along rows. */
function blurRows(from: usize, width: i32, height: i32, step: i32, to: usize): void {
  const far = 2 * step;
  const inner = width - far;
  const near4 = <usize>step << 2;
  const far4 = <usize>far << 2;
  for (let row = 0; row < height; row++) {
    const line = <usize>(row * width) << 2;
    let x = 0;
    for (; x < width; x++) {
      if (x == far) {
        // Only ends need mirroring.
        for (; x + 4 <= inner; x += 4) {
          const at = from + line + (<usize>x << 2);
          v128.store(
            to + line + (<usize>x << 2),
            blurred(
              v128.load(at - far4),
              v128.load(at - near4),
              v128.load(at),
              v128.load(at + near4),
              v128.load(at + far4),
            ),
          );
        }
        if (x >= width) break;
      }
      const a = load<f32>(from + line + (<usize>mirrored(x - far, width) << 2));
      const b = load<f32>(from + line + (<usize>mirrored(x - step, width) << 2));
      const c = load<f32>(from + line + (<usize>x << 2));
      const d = load<f32>(from + line + (<usize>mirrored(x + step, width) << 2));
      const e = load<f32>(from + line + (<usize>mirrored(x + far, width) << 2));
      store<f32>(to + line + (<usize>x << 2), blurredOne(a, b, c, d, e));
    }
  }
}

/** The same along columns, into `other`; it is taken off `one`. */
function blurColumns(from: usize, width: i32, height: i32, step: i32, one: usize, other: usize): void {
  for (let row = 0; row < height; row++) {
    const a = from + (<usize>(mirrored(row - 2 * step, height) * width) << 2);
    const b = from + (<usize>(mirrored(row - step, height) * width) << 2);
    const line = <usize>(row * width) << 2;
    const c = from + line;
    const d = from + (<usize>(mirrored(row + step, height) * width) << 2);
    const e = from + (<usize>(mirrored(row + 2 * step, height) * width) << 2);
    let x = 0;
    for (; x + 4 <= width; x += 4) {
      const at = <usize>x << 2;
      const soft = blurred(
        v128.load(a + at),
        v128.load(b + at),
        v128.load(c + at),
        v128.load(d + at),
        v128.load(e + at),
      );
      v128.store(other + line + at, soft);
      v128.store(one + line + at, f32x4.sub(v128.load(one + line + at), soft));
    }
    for (; x < width; x++) {
      const at = <usize>x << 2;
      const soft = blurredOne(
        load<f32>(a + at),
        load<f32>(b + at),
        load<f32>(c + at),
        load<f32>(d + at),
        load<f32>(e + at),
      );
      store<f32>(other + line + at, soft);
      store<f32>(one + line + at, load<f32>(one + line + at) - soft);
    }
  }
}

/** Squares summed over three places of a row that are `step` apart. */
function squaresOfRows(from: usize, width: i32, height: i32, step: i32, to: usize): void {
  const step4 = <usize>step << 2;
  for (let row = 0; row < height; row++) {
    const line = <usize>(row * width) << 2;
    let x = 0;
    for (; x < width; x++) {
      if (x == step) {
        for (; x + 4 <= width - step; x += 4) {
          const at = from + line + (<usize>x << 2);
          const left = v128.load(at - step4);
          const here = v128.load(at);
          const right = v128.load(at + step4);
          const two = f32x4.add(f32x4.mul(left, left), f32x4.mul(here, here));
          v128.store(to + line + (<usize>x << 2), f32x4.add(two, f32x4.mul(right, right)));
        }
        if (x >= width) break;
      }
      const left = load<f32>(from + line + (<usize>mirrored(x - step, width) << 2));
      const here = load<f32>(from + line + (<usize>x << 2));
      const right = load<f32>(from + line + (<usize>mirrored(x + step, width) << 2));
      store<f32>(to + line + (<usize>x << 2), left * left + here * here + right * right);
    }
  }
}

/** Adds to `kept` what of the differences stands out of noise. `rows`: sums of squares along rows; `limit`: of nine. */
function keepAbove(
  rows: usize,
  width: i32,
  height: i32,
  step: i32,
  limit: f32,
  differences: usize,
  kept: usize,
): void {
  const limits = f32x4.splat(limit);
  const squared = f32x4.splat(limit * limit);
  const ones = f32x4.splat(1);
  for (let row = 0; row < height; row++) {
    const up = rows + (<usize>(mirrored(row - step, height) * width) << 2);
    const line = <usize>(row * width) << 2;
    const down = rows + (<usize>(mirrored(row + step, height) * width) << 2);
    let x = 0;
    for (; x + 4 <= width; x += 4) {
      const at = <usize>x << 2;
      const two = f32x4.add(v128.load(up + at), v128.load(rows + line + at));
      const found = f32x4.add(two, v128.load(down + at));
      const above = f32x4.gt(found, limits);
      // In even light and at the strengths that are usual, most of the picture keeps nothing.
      if (!v128.any_true(above)) continue;
      const share = f32x4.sub(ones, f32x4.div(squared, f32x4.mul(found, found)));
      const part = f32x4.mul(v128.load(differences + line + at), share);
      v128.store(kept + line + at, f32x4.add(v128.load(kept + line + at), v128.and(part, above)));
    }
    for (; x < width; x++) {
      const at = <usize>x << 2;
      const found = load<f32>(up + at) + load<f32>(rows + line + at) + load<f32>(down + at);
      if (!(found > limit)) continue;
      const part = load<f32>(differences + line + at) * (1 - (limit * limit) / (found * found));
      store<f32>(kept + line + at, load<f32>(kept + line + at) + part);
    }
  }
}

@inline
function blurred(a: v128, b: v128, c: v128, d: v128, e: v128): v128 {
  const outer = f32x4.add(a, e);
  const inner = f32x4.mul(f32x4.splat(4), f32x4.add(b, d));
  const middle = f32x4.mul(f32x4.splat(6), c);
  return f32x4.mul(f32x4.add(f32x4.add(outer, inner), middle), f32x4.splat(0.0625));
}

@inline
function blurredOne(a: f32, b: f32, c: f32, d: f32, e: f32): f32 {
  return (a + e + <f32>4 * (b + d) + <f32>6 * c) * <f32>0.0625;
}
