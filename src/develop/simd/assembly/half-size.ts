/** From the mosaic to camera light at half size: kernels/half-rows.ts. */
import { number, storeRgb, times } from './vectors';

/** Columns left free on each side of a row of a plane of half size. */
const planeMargin: u32 = 4;

/**
 * The samples of `rows` rows of 2x2 blocks as four planes, black taken off and balanced. `p` points to the scale of
 * positions 0-3, then black times scale; `plane0` … `plane3` are where each position's plane begins.
 */
export function split(
  mosaic: usize,
  widthPx: u32,
  rows: u32,
  p: usize,
  plane0: usize,
  plane1: usize,
  plane2: usize,
  plane3: usize,
): void {
  const outWidth = widthPx >> 1;
  const stride = (outWidth + 2 * planeMargin) << 2;
  const scale0 = number(p, 0);
  const scale1 = number(p, 1);
  const scale2 = number(p, 2);
  const scale3 = number(p, 3);
  const shift0 = number(p, 4);
  const shift1 = number(p, 5);
  const shift2 = number(p, 6);
  const shift3 = number(p, 7);
  for (let row: u32 = 0; row < rows; row++) {
    const upper = mosaic + row * widthPx * 4;
    const lower = upper + widthPx * 2;
    const line = row * stride + (planeMargin << 2);
    for (let column: u32 = 0; column < outWidth; column += 4) {
      const above = v128.load(upper + (column << 2));
      const below = v128.load(lower + (column << 2));
      const to = line + (column << 2);
      v128.store(plane0 + to, f32x4.sub(f32x4.mul(evenOf(above), scale0), shift0));
      v128.store(plane1 + to, f32x4.sub(f32x4.mul(oddOf(above), scale1), shift1));
      v128.store(plane2 + to, f32x4.sub(f32x4.mul(evenOf(below), scale2), shift2));
      v128.store(plane3 + to, f32x4.sub(f32x4.mul(oddOf(below), scale3), shift3));
    }
    repeatEdges(plane0 + line, outWidth);
    repeatEdges(plane1 + line, outWidth);
    repeatEdges(plane2 + line, outWidth);
    repeatEdges(plane3 + line, outWidth);
  }
}

/**
 * Half-size balanced camera RGB of `rows` rows from four planes, `planeBytes` apart, in the order red, green in red's row,
 * green in red's column, blue; the planes begin two rows above, and two more behind them are filled on the way.
 * `redPosition` is red's in the block.
 */
export function half(
  planes: usize,
  planeBytes: u32,
  outWidth: u32,
  rows: u32,
  to: usize,
  redPosition: u32,
  saturation: usize,
): void {
  const stride: isize = (outWidth + 2 * planeMargin) << 2;
  const x: isize = (redPosition & 1) === 0 ? 4 : -4;
  const y: isize = (redPosition & 2) === 0 ? stride : -stride;
  for (let row: u32 = 0; row < rows + 2; row++) {
    const red = planes + (row + 1) * <u32>stride + ((planeMargin - 1) << 2);
    const greenR = red + planeBytes;
    const greenC = greenR + planeBytes;
    const blue = greenC + planeBytes;
    greenAbove(red, greenR, x, greenC, y, blue + planeBytes, outWidth + 2);
    greenAbove(blue, greenC, -x, greenR, -y, blue + 2 * planeBytes, outWidth + 2);
  }
  const limitR = number(saturation, 0);
  const limitG = number(saturation, 1);
  const limitB = number(saturation, 2);
  for (let row: u32 = 0; row < rows; row++) {
    const line = planes + (row + 2) * <u32>stride + (planeMargin << 2);
    const out = to + row * outWidth * 12;
    for (let column: u32 = 0; column < outWidth; column += 4) {
      const red = line + (column << 2);
      const blue = red + 3 * planeBytes;
      const overRed = blue + planeBytes;
      const overBlue = overRed + planeBytes;
      const colours = f32x4.add(v128.load(red), v128.load(blue));
      const beside = f32x4.add(around(red, stride), around(blue, stride));
      const there = f32x4.add(v128.load(red + planeBytes), v128.load(red + 2 * planeBytes));
      const higher = f32x4.add(v128.load(overRed), v128.load(overBlue));
      const detail = f32x4.sub(times(0.3125, colours), times(0.015625, beside));
      const green = f32x4.add(times(0.25, f32x4.add(there, higher)), detail);
      const r = f32x4.pmin(limitR, f32x4.sub(green, centre(overRed, x, y)));
      const b = f32x4.pmin(limitB, f32x4.sub(green, centre(overBlue, -x, -y)));
      storeRgb(out + column * 12, r, f32x4.pmin(limitG, green), b);
    }
  }
}

/** `greenAbove` of half-rows.ts. */
@inline
function greenAbove(own: usize, inRow: usize, x: isize, inColumn: usize, y: isize, to: usize, count: u32): void {
  const zero = f32x4.splat(0);
  for (let i: u32 = 0; i < count << 2; i += 16) {
    const sample = v128.load(own + i);
    const left = v128.load(inRow + i);
    const right = v128.load(inRow + i - x);
    const upper = v128.load(inColumn + i);
    const lower = v128.load(inColumn + i - y);
    const beside = times(0.5, f32x4.add(left, right));
    const above = times(0.5, f32x4.add(upper, lower));
    const light = f32x4.pmax(zero, f32x4.add(beside, above));
    const floor = f32x4.add(f32x4.splat(0.002), times(0.05, light));
    const square = f32x4.mul(floor, floor);
    const squareBeside = f32x4.add(square, unlike(sample, beside, left, right));
    const squareAbove = f32x4.add(square, unlike(sample, above, upper, lower));
    const share = f32x4.div(squareAbove, f32x4.add(squareBeside, squareAbove));
    v128.store(to + i, f32x4.add(f32x4.sub(above, sample), f32x4.mul(f32x4.sub(beside, above), share)));
  }
}

/** How much a direction disagrees, squared. */
@inline
function unlike(sample: v128, mean: v128, one: v128, other: v128): v128 {
  const off = f32x4.abs(f32x4.sub(sample, mean));
  const sum = f32x4.add(off, times(0.5, f32x4.abs(f32x4.sub(one, other))));
  return f32x4.mul(sum, sum);
}

/** Four of the eight 16-bit values of a vector, as floats. */
@inline
function evenOf(values: v128): v128 {
  return f32x4.convert_i32x4_s(v128.and(values, i32x4.splat(0xffff)));
}

@inline
function oddOf(values: v128): v128 {
  return f32x4.convert_i32x4_s(i32x4.shr_u(values, 16));
}

@inline
function repeatEdges(line: usize, width: u32): void {
  const first = load<f32>(line);
  store<f32>(line - 4, first);
  store<f32>(line - 8, first);
  const behind = line + (width << 2);
  const last = load<f32>(behind - 4);
  store<f32>(behind, last);
  store<f32>(behind + 4, last);
}

/** The weighted mean of four neighbours. */
@inline
function centre(at: usize, x: isize, y: isize): v128 {
  const beside = f32x4.add(v128.load(at + x), v128.load(at + y));
  const sum = f32x4.add(f32x4.add(times(4, v128.load(at)), times(2, beside)), v128.load(at + x + y));
  return times(1.0 / 9, sum);
}

@inline
function around(at: usize, stride: isize): v128 {
  const beside = f32x4.add(v128.load(at - 4), v128.load(at + 4));
  return f32x4.add(beside, f32x4.add(v128.load(at - stride), v128.load(at + stride)));
}
