/** From camera light to encoded bytes: kernels/rebuild-highlights.ts, encode-samples.ts and look/kernels/render-light.ts. */
import { blueOf, greenOf, number, redOf, sampled, storeRgb, towards } from './vectors';

// Layout of the numbers at `p` in `light`.
const toSceneAt: u32 = 0;
const toOutputAt: u32 = 9;
const luminanceAt: u32 = 18;
const sceneWhiteAt: u32 = 21;
const toPositionAt: u32 = 22;
const slopeAtBlackAt: u32 = 23;

/** Highlights of balanced camera RGB rebuilt, in place. `p` points to the saturation of red, green, blue. */
export function rebuild(rgb: usize, count: u32, p: usize): void {
  const saturationR = number(p, 0);
  const saturationG = number(p, 1);
  const saturationB = number(p, 2);
  const near = f32x4.splat(0.9);
  const nearR = f32x4.mul(near, saturationR);
  const nearG = f32x4.mul(near, saturationG);
  const nearB = f32x4.mul(near, saturationB);
  const end = rgb + count * 12;
  for (let at = rgb; at < end; at += 48) {
    const first = v128.load(at);
    const second = v128.load(at, 16);
    const third = v128.load(at, 32);
    let r = redOf(first, second, third);
    let g = greenOf(first, second, third);
    let b = blueOf(first, second, third);
    const isNear = v128.or(v128.or(f32x4.gt(r, nearR), f32x4.gt(g, nearG)), f32x4.gt(b, nearB));
    if (!v128.any_true(isNear)) continue;
    const lostR = lost(f32x4.div(r, saturationR));
    const lostG = lost(f32x4.div(g, saturationG));
    const lostB = lost(f32x4.div(b, saturationB));
    const r1 = raised(r, lostR, f32x4.mul(lostG, f32x4.sub(b, r)), f32x4.mul(lostB, f32x4.sub(g, r)));
    const g1 = raised(g, lostG, f32x4.mul(lostB, f32x4.sub(r, g)), f32x4.mul(lostR, f32x4.sub(b, g)));
    const b1 = raised(b, lostB, f32x4.mul(lostG, f32x4.sub(r, b)), f32x4.mul(lostR, f32x4.sub(g, b)));
    const between = f32x4.mul(f32x4.add(r1, b1), f32x4.splat(0.5));
    r = raisedTo(r1, f32x4.pmin(g1, b1), lostR);
    g = raisedTo(g1, between, lostG);
    b = raisedTo(b1, f32x4.pmin(r1, g1), lostB);
    const all = f32x4.mul(f32x4.mul(lostR, lostG), lostB);
    const brightest = f32x4.pmax(f32x4.pmax(r, g), b);
    storeRgb(at, towards(r, brightest, all), towards(g, brightest, all), towards(b, brightest, all));
  }
}

/**
 * Balanced camera RGB to display-linear RGB, in place. `samples` is the curve's table with its last sample repeated;
 * `last` is the index of its last sample, 0 where there is no curve.
 */
export function light(rgb: usize, count: u32, p: usize, samples: usize, last: u32): void {
  const zero = f32x4.splat(0);
  const one = f32x4.splat(1);
  const sceneWhite = number(p, sceneWhiteAt);
  const toPosition = number(p, toPositionAt);
  const slopeAtBlack = number(p, slopeAtBlackAt);
  const lastPosition = f32x4.splat(<f32>last);
  const end = rgb + count * 12;
  for (let at = rgb; at < end; at += 48) {
    const first = v128.load(at);
    const second = v128.load(at, 16);
    const third = v128.load(at, 32);
    const x = redOf(first, second, third);
    const y = greenOf(first, second, third);
    const z = blueOf(first, second, third);
    let r = dot(p, toSceneAt, x, y, z);
    let g = dot(p, toSceneAt + 3, x, y, z);
    let b = dot(p, toSceneAt + 6, x, y, z);

    if (last > 0) {
      const high = f32x4.pmax(f32x4.pmax(r, g), b);
      const low = f32x4.pmin(f32x4.pmin(r, g), b);
      const highOut = curve(high, samples, sceneWhite, toPosition, lastPosition, slopeAtBlack);
      const lowOut = curve(low, samples, sceneWhite, toPosition, lastPosition, slopeAtBlack);
      // Where the two are equal the dividend is 0: any divisor but 0 will do.
      const span = f32x4.pmax(f32x4.sub(high, low), f32x4.splat(1.17549435e-38));
      const k = f32x4.div(f32x4.sub(highOut, lowOut), span);
      r = f32x4.add(lowOut, f32x4.mul(k, f32x4.sub(r, low)));
      g = f32x4.add(lowOut, f32x4.mul(k, f32x4.sub(g, low)));
      b = f32x4.add(lowOut, f32x4.mul(k, f32x4.sub(b, low)));
    }

    let outR = dot(p, toOutputAt, r, g, b);
    let outG = dot(p, toOutputAt + 3, r, g, b);
    let outB = dot(p, toOutputAt + 6, r, g, b);
    const high = f32x4.pmax(f32x4.pmax(outR, outG), outB);
    const low = f32x4.pmin(f32x4.pmin(outR, outG), outB);
    const isAbove = f32x4.gt(high, one);
    const isBelow = f32x4.lt(low, zero);
    if (v128.any_true(v128.or(isAbove, isBelow))) {
      const Y = f32x4.pmin(one, f32x4.pmax(zero, dot(p, luminanceAt, outR, outG, outB)));
      const keepLow = v128.bitselect(f32x4.div(Y, f32x4.sub(Y, low)), one, isBelow);
      const keepHigh = v128.bitselect(f32x4.div(f32x4.sub(one, Y), f32x4.sub(high, Y)), one, isAbove);
      const keep = f32x4.pmin(keepLow, keepHigh);
      outR = towards(Y, outR, keep);
      outG = towards(Y, outG, keep);
      outB = towards(Y, outB, keep);
    }
    storeRgb(at, outR, outG, outB);
  }
}

/** Linear samples to bytes, through a table over 0 … 1 in 65,536 even steps. What is not a number becomes table[0]. */
export function encode(linear: usize, count: u32, table: usize, to: usize): void {
  const zero = f32x4.splat(0);
  const one = f32x4.splat(1);
  const steps = f32x4.splat(65535);
  const half = f32x4.splat(0.5);
  for (let i: u32 = 0; i < count; i += 4) {
    const held = f32x4.pmin(one, f32x4.pmax(zero, v128.load(linear + (i << 2))));
    const step = i32x4.trunc_sat_f32x4_s(f32x4.add(f32x4.mul(held, steps), half));
    const at = to + i;
    store<u8>(at, load<u8>(table + i32x4.extract_lane(step, 0)));
    store<u8>(at, load<u8>(table + i32x4.extract_lane(step, 1)), 1);
    store<u8>(at, load<u8>(table + i32x4.extract_lane(step, 2)), 2);
    store<u8>(at, load<u8>(table + i32x4.extract_lane(step, 3)), 3);
  }
}

@inline
function lost(shareOfRange: v128): v128 {
  const t = f32x4.mul(f32x4.sub(shareOfRange, f32x4.splat(0.9)), f32x4.splat(10));
  const held = f32x4.pmin(f32x4.splat(1), f32x4.pmax(f32x4.splat(0), t));
  const slope = f32x4.sub(f32x4.splat(3), f32x4.add(held, held));
  return f32x4.mul(f32x4.mul(held, held), slope);
}

/** value + share x the largest of 0 and two differences. */
@inline
function raised(value: v128, share: v128, one: v128, other: v128): v128 {
  const most = f32x4.pmax(f32x4.splat(0), f32x4.pmax(one, other));
  return f32x4.add(value, f32x4.mul(share, most));
}

/** Part of the way up to a target that lies above. */
@inline
function raisedTo(value: v128, target: v128, share: v128): v128 {
  const room = f32x4.pmax(f32x4.splat(0), f32x4.sub(target, value));
  return f32x4.add(value, f32x4.mul(share, room));
}

/** One row of a matrix. */
@inline
function dot(p: usize, index: u32, x: v128, y: v128, z: v128): v128 {
  const xy = f32x4.add(f32x4.mul(number(p, index), x), f32x4.mul(number(p, index + 1), y));
  return f32x4.add(xy, f32x4.mul(number(p, index + 2), z));
}

/** The table at four scene values. */
@inline
function curve(
  scene: v128,
  samples: usize,
  sceneWhite: v128,
  toPosition: v128,
  last: v128,
  slopeAtBlack: v128,
): v128 {
  const zero = f32x4.splat(0);
  const held = f32x4.pmin(sceneWhite, f32x4.pmax(zero, scene));
  const position = f32x4.pmin(last, f32x4.mul(f32x4.sqrt(held), toPosition));
  const inside = sampled(position, samples);
  // The table starts at 0, so a value below black adds to nothing.
  return f32x4.add(inside, f32x4.mul(f32x4.pmin(zero, scene), slopeAtBlack));
}
