/** Through the lattice of a look: look/kernels/apply-lattice.ts. */
import { blueOf, greenOf, redOf, sampled } from './vectors';

/**
 * `count` pixels of light 0 … 1 through a look's lattice, in place: apply-lattice.ts. `values` holds size^3 x 3 floats, red
 * slowest. `into` and `outOf` hold their last sample twice.
 *
 * The order of the fractions is not branched upon: neighbouring pixels disagree on it, and where two are equal the corner
 * between them weighs nothing, whichever it is.
 */
export function lattice(
  rgb: usize,
  count: u32,
  size: u32,
  values: usize,
  into: usize,
  intoLast: f32,
  outOf: usize,
  outLast: f32,
  outLow: f32,
  toOut: f32,
): void {
  const one = f32x4.splat(1);
  const cells = f32x4.splat(<f32>(size - 1));
  const lastCell = i32x4.splat(size - 2);
  const strideR = i32x4.splat(size * size * 12);
  const strideG = i32x4.splat(size * 12);
  const strideB = i32x4.splat(12);
  const toWhite = size * size * 12 + size * 12 + 12;
  const end = rgb + count * 12;
  for (let at = rgb; at < end; at += 48) {
    const first = shaped(v128.load(at), into, intoLast);
    const second = shaped(v128.load(at, 16), into, intoLast);
    const third = shaped(v128.load(at, 32), into, intoLast);
    const r = f32x4.mul(redOf(first, second, third), cells);
    const g = f32x4.mul(greenOf(first, second, third), cells);
    const b = f32x4.mul(blueOf(first, second, third), cells);
    const nodeR = i32x4.min_s(lastCell, i32x4.trunc_sat_f32x4_s(r));
    const nodeG = i32x4.min_s(lastCell, i32x4.trunc_sat_f32x4_s(g));
    const nodeB = i32x4.min_s(lastCell, i32x4.trunc_sat_f32x4_s(b));
    const fr = f32x4.sub(r, f32x4.convert_i32x4_s(nodeR));
    const fg = f32x4.sub(g, f32x4.convert_i32x4_s(nodeG));
    const fb = f32x4.sub(b, f32x4.convert_i32x4_s(nodeB));

    const most = f32x4.pmax(f32x4.pmax(fr, fg), fb);
    const least = f32x4.pmin(f32x4.pmin(fr, fg), fb);
    const middle = f32x4.pmax(f32x4.pmin(fr, fg), f32x4.pmin(f32x4.pmax(fr, fg), fb));
    const isRedMost = v128.and(f32x4.ge(fr, fg), f32x4.ge(fr, fb));
    const isRedLeast = v128.and(f32x4.lt(fr, fg), f32x4.lt(fr, fb));
    const toMost = v128.bitselect(strideR, v128.bitselect(strideG, strideB, f32x4.ge(fg, fb)), isRedMost);
    const toLeast = v128.bitselect(strideR, v128.bitselect(strideG, strideB, f32x4.lt(fg, fb)), isRedLeast);
    const black = i32x4.add(
      i32x4.mul(nodeR, strideR),
      i32x4.add(i32x4.mul(nodeG, strideG), i32x4.mul(nodeB, strideB)),
    );
    const next = i32x4.add(black, toMost);
    const behind = i32x4.sub(i32x4.add(black, i32x4.splat(toWhite)), toLeast);
    const w0 = f32x4.sub(one, most);
    const w1 = f32x4.sub(most, middle);
    const w2 = f32x4.sub(middle, least);

    const p0 = mixed(
      values + i32x4.extract_lane(black, 0),
      values + i32x4.extract_lane(next, 0),
      values + i32x4.extract_lane(behind, 0),
      toWhite,
      v128.shuffle<f32>(w0, w0, 0, 0, 0, 0),
      v128.shuffle<f32>(w1, w1, 0, 0, 0, 0),
      v128.shuffle<f32>(w2, w2, 0, 0, 0, 0),
      v128.shuffle<f32>(least, least, 0, 0, 0, 0),
    );
    const p1 = mixed(
      values + i32x4.extract_lane(black, 1),
      values + i32x4.extract_lane(next, 1),
      values + i32x4.extract_lane(behind, 1),
      toWhite,
      v128.shuffle<f32>(w0, w0, 1, 1, 1, 1),
      v128.shuffle<f32>(w1, w1, 1, 1, 1, 1),
      v128.shuffle<f32>(w2, w2, 1, 1, 1, 1),
      v128.shuffle<f32>(least, least, 1, 1, 1, 1),
    );
    const p2 = mixed(
      values + i32x4.extract_lane(black, 2),
      values + i32x4.extract_lane(next, 2),
      values + i32x4.extract_lane(behind, 2),
      toWhite,
      v128.shuffle<f32>(w0, w0, 2, 2, 2, 2),
      v128.shuffle<f32>(w1, w1, 2, 2, 2, 2),
      v128.shuffle<f32>(w2, w2, 2, 2, 2, 2),
      v128.shuffle<f32>(least, least, 2, 2, 2, 2),
    );
    const p3 = mixed(
      values + i32x4.extract_lane(black, 3),
      values + i32x4.extract_lane(next, 3),
      values + i32x4.extract_lane(behind, 3),
      toWhite,
      v128.shuffle<f32>(w0, w0, 3, 3, 3, 3),
      v128.shuffle<f32>(w1, w1, 3, 3, 3, 3),
      v128.shuffle<f32>(w2, w2, 3, 3, 3, 3),
      v128.shuffle<f32>(least, least, 3, 3, 3, 3),
    );
    v128.store(at, unshaped(v128.shuffle<f32>(p0, p1, 0, 1, 2, 4), outOf, outLast, outLow, toOut));
    v128.store(at, unshaped(v128.shuffle<f32>(p1, p2, 1, 2, 4, 5), outOf, outLast, outLow, toOut), 16);
    v128.store(at, unshaped(v128.shuffle<f32>(p2, p3, 2, 4, 5, 6), outOf, outLast, outLow, toOut), 32);
  }
}

/** Position 0 … 1 in a lattice of four samples of light; what is not a number is black. */
@inline
function shaped(light: v128, into: usize, last: f32): v128 {
  const held = f32x4.pmin(f32x4.splat(1), f32x4.pmax(f32x4.splat(0), light));
  return sampled(f32x4.mul(f32x4.sqrt(held), f32x4.splat(last)), into);
}

/** And back to light. */
@inline
function unshaped(value: v128, outOf: usize, last: f32, low: f32, toOut: f32): v128 {
  const position = f32x4.mul(f32x4.sub(value, f32x4.splat(low)), f32x4.splat(toOut));
  return sampled(f32x4.pmin(f32x4.splat(last), f32x4.pmax(f32x4.splat(0), position)), outOf);
}

/** One pixel between four corners of its cell; the fourth float belongs to a neighbour. */
@inline
function mixed(
  black: usize,
  next: usize,
  behind: usize,
  toWhite: u32,
  w0: v128,
  w1: v128,
  w2: v128,
  w3: v128,
): v128 {
  const near = f32x4.add(f32x4.mul(w0, v128.load(black)), f32x4.mul(w1, v128.load(next)));
  const far = f32x4.add(f32x4.mul(w2, v128.load(behind)), f32x4.mul(w3, v128.load(black + toWhite)));
  return f32x4.add(near, far);
}
