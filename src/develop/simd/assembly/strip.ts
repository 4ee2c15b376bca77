/**
 * The kernels of one strip of pixels in WebAssembly SIMD, four pixels at a time (AssemblyScript; README.md beside has the
 * recipe). The readable truth is `../../kernels/`, in files that are named after the same steps. Same order, in 32-bit
 * floats here and 64-bit floats there.
 *
 * Addresses are bytes in the imported memory, chosen by the caller, who leaves 64 bytes free behind every region: the
 * last vector of a row may read and write past its end. `p` points to the numbers that stay the same for a whole
 * picture, 32-bit floats.
 *
 * Comparisons are `pmin` and `pmax`: one instruction on x86, where `min` and `max` take seven to look after NaN and -0
 * (measured: `light` takes half the time).
 */

/** Columns left free on each side of a row of a plane of half size. */
const planeMargin: u32 = 4;

const rootFoot: f32 = 0.0078125;

// Layout of the numbers at `p` in `light`.
const toSceneAt: u32 = 0;
const toOutputAt: u32 = 9;
const luminanceAt: u32 = 18;
const sceneWhiteAt: u32 = 21;
const toPositionAt: u32 = 22;
const slopeAtBlackAt: u32 = 23;

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

/**
 * `count` samples of a row on the root scale: kernels/balance-rows.ts. In 64-bit floats, as there: the roots are the same to
 * the bit, and half the lanes still take a sixth of the time.
 */
export function roots(samples: usize, count: u32, scaleA: f64, footA: f64, scaleB: f64, footB: f64, to: usize): void {
  const zero = f64x2.splat(0);
  const scale = f64x2.replace_lane(f64x2.splat(scaleA), 1, scaleB);
  const foot = f64x2.replace_lane(f64x2.splat(footA), 1, footB);
  for (let i: u32 = 0; i < count; i += 4) {
    const values = v128.load16x4_u(samples + (i << 1));
    const first = f64x2.add(f64x2.mul(f64x2.convert_low_i32x4_s(values), scale), foot);
    const behind = f64x2.convert_low_i32x4_s(v128.shuffle<i32>(values, values, 2, 3, 2, 3));
    const second = f64x2.add(f64x2.mul(behind, scale), foot);
    const low = f32x4.demote_f64x2_zero(f64x2.sqrt(f64x2.pmax(zero, first)));
    const high = f32x4.demote_f64x2_zero(f64x2.sqrt(f64x2.pmax(zero, second)));
    v128.store(to + (i << 2), v128.shuffle<f32>(low, high, 0, 1, 4, 5));
  }
}

/** Samples left of the window's column 0 in a ring row (kernels/ring-rows.ts), and rows of a ring. */
const ringMargin: u32 = 10;
const ringRows: u32 = 16;

// The rings of demosaic-steps.ts, in their order.
const rootRing: u32 = 0;
const inRowRing: u32 = 1;
const inColumnRing: u32 = 2;
const unrestInRowRing: u32 = 3;
const unrestInColumnRing: u32 = 4;
const blendRing: u32 = 5;
const crossRing: u32 = 6;

const unrestFloor: f32 = 1e-4;

/**
 * The steps of the demosaic on one row of rings at `plane`, `stride` bytes a row; see kernels/demosaic-rows.ts. All
 * pixels are computed alike, those of the wrong kind for nothing.
 */
export function differences(plane: usize, stride: u32, row: i32, colourColumn: u32): void {
  const root = rowOf(plane, rootRing, row, stride);
  const up2 = rowOf(plane, rootRing, row - 2, stride);
  const up = rowOf(plane, rootRing, row - 1, stride);
  const down = rowOf(plane, rootRing, row + 1, stride);
  const down2 = rowOf(plane, rootRing, row + 2, stride);
  const inRow = rowOf(plane, inRowRing, row, stride);
  const inColumn = rowOf(plane, inColumnRing, row, stride);
  // Vectors begin at even columns.
  const sign = colourColumn === 0 ? f32x4(1, -1, 1, -1) : f32x4(-1, 1, -1, 1);
  for (let i: u32 = 8; i < stride - 8; i += 16) {
    const own = times(0.5, v128.load(root + i));
    const beside = times(0.5, f32x4.add(v128.load(root + i - 4), v128.load(root + i, 4)));
    const beside2 = times(0.25, f32x4.add(v128.load(root + i - 8), v128.load(root + i, 8)));
    const above = times(0.5, f32x4.add(v128.load(up + i), v128.load(down + i)));
    const above2 = times(0.25, f32x4.add(v128.load(up2 + i), v128.load(down2 + i)));
    v128.store(inRow + i, f32x4.mul(sign, f32x4.sub(f32x4.sub(beside, beside2), own)));
    v128.store(inColumn + i, f32x4.mul(sign, f32x4.sub(f32x4.sub(above, above2), own)));
  }
}

export function unrest(plane: usize, stride: u32, row: i32): void {
  const inRow = rowOf(plane, inRowRing, row, stride);
  const up = rowOf(plane, inColumnRing, row - 1, stride);
  const down = rowOf(plane, inColumnRing, row + 1, stride);
  const unrestInRow = rowOf(plane, unrestInRowRing, row, stride);
  const unrestInColumn = rowOf(plane, unrestInColumnRing, row, stride);
  for (let i: u32 = 12; i < stride - 12; i += 16) {
    const before = f32x4.abs(f32x4.sub(v128.load(up + i - 4), v128.load(down + i - 4)));
    const here = f32x4.abs(f32x4.sub(v128.load(up + i), v128.load(down + i)));
    const behind = f32x4.abs(f32x4.sub(v128.load(up + i, 4), v128.load(down + i, 4)));
    v128.store(unrestInRow + i, f32x4.abs(f32x4.sub(v128.load(inRow + i - 4), v128.load(inRow + i, 4))));
    v128.store(unrestInColumn + i, f32x4.add(f32x4.add(before, here), behind));
  }
}

export function blend(plane: usize, stride: u32, row: i32, width: u32): void {
  const inRow = rowOf(plane, inRowRing, row, stride);
  const inColumn = rowOf(plane, inColumnRing, row, stride);
  const inColumnUp = rowOf(plane, inColumnRing, row - 1, stride);
  const inColumnUp2 = rowOf(plane, inColumnRing, row - 2, stride);
  const inColumnDown = rowOf(plane, inColumnRing, row + 1, stride);
  const inColumnDown2 = rowOf(plane, inColumnRing, row + 2, stride);
  const c = rowOf(plane, unrestInColumnRing, row, stride);
  const cUp = rowOf(plane, unrestInColumnRing, row - 1, stride);
  const cUp2 = rowOf(plane, unrestInColumnRing, row - 2, stride);
  const cUp3 = rowOf(plane, unrestInColumnRing, row - 3, stride);
  const cDown = rowOf(plane, unrestInColumnRing, row + 1, stride);
  const cDown2 = rowOf(plane, unrestInColumnRing, row + 2, stride);
  const cDown3 = rowOf(plane, unrestInColumnRing, row + 3, stride);
  const r = rowOf(plane, unrestInRowRing, row, stride);
  const rUp = rowOf(plane, unrestInRowRing, row - 1, stride);
  const rDown = rowOf(plane, unrestInRowRing, row + 1, stride);
  const out = rowOf(plane, blendRing, row, stride);
  const end = (ringMargin + width + 4) << 2;
  for (let i: u32 = (ringMargin - 4) << 2; i < end; i += 16) {
    const north = f32x4.add(f32x4.add(v128.load(c + i), v128.load(cUp + i)), f32x4.add(v128.load(cUp2 + i), v128.load(cUp3 + i)));
    const south = f32x4.add(f32x4.add(v128.load(c + i), v128.load(cDown + i)), f32x4.add(v128.load(cDown2 + i), v128.load(cDown3 + i)));
    const own = threeRows(r + i, rUp + i, rDown + i);
    const west = f32x4.add(
      f32x4.add(own, threeRows(r + i - 4, rUp + i - 4, rDown + i - 4)),
      f32x4.add(threeRows(r + i - 8, rUp + i - 8, rDown + i - 8), threeRows(r + i - 12, rUp + i - 12, rDown + i - 12)),
    );
    const east = f32x4.add(
      f32x4.add(own, threeRows(r + i + 4, rUp + i + 4, rDown + i + 4)),
      f32x4.add(threeRows(r + i + 8, rUp + i + 8, rDown + i + 8), threeRows(r + i + 12, rUp + i + 12, rDown + i + 12)),
    );
    const weightN = calmness(north);
    const weightS = calmness(south);
    const weightW = calmness(west);
    const weightE = calmness(east);
    const vertical = f32x4.add(weightN, weightS);
    const horizontal = f32x4.add(weightW, weightE);
    const ownSides = f32x4.add(f32x4.mul(vertical, v128.load(inColumn + i)), f32x4.mul(horizontal, v128.load(inRow + i)));
    const farN = f32x4.mul(weightN, f32x4.add(v128.load(inColumnUp + i), v128.load(inColumnUp2 + i)));
    const farS = f32x4.mul(weightS, f32x4.add(v128.load(inColumnDown + i), v128.load(inColumnDown2 + i)));
    const farW = f32x4.mul(weightW, f32x4.add(v128.load(inRow + i - 4), v128.load(inRow + i - 8)));
    const farE = f32x4.mul(weightE, f32x4.add(v128.load(inRow + i, 4), v128.load(inRow + i, 8)));
    const far = f32x4.add(f32x4.add(farN, farS), f32x4.add(farW, farE));
    const sum = f32x4.add(times(0.5, ownSides), times(0.25, far));
    v128.store(out + i, f32x4.div(sum, f32x4.add(vertical, horizontal)));
  }
}

export function cross(plane: usize, stride: u32, row: i32, width: u32): void {
  const up3 = rowOf(plane, blendRing, row - 3, stride);
  const up = rowOf(plane, blendRing, row - 1, stride);
  const down = rowOf(plane, blendRing, row + 1, stride);
  const down3 = rowOf(plane, blendRing, row + 3, stride);
  const out = rowOf(plane, crossRing, row, stride);
  const end = (ringMargin + width + 2) << 2;
  for (let i: u32 = (ringMargin - 2) << 2; i < end; i += 16) {
    const near = f32x4.add(twoBeside(up + i, 4), twoBeside(down + i, 4));
    const above = f32x4.add(twoBeside(up3 + i, 4), twoBeside(down3 + i, 4));
    const beside = f32x4.add(twoBeside(up + i, 12), twoBeside(down + i, 12));
    v128.store(out + i, f32x4.sub(times(0.3125, near), times(0.03125, f32x4.add(above, beside))));
  }
}

/** `p` points to the saturation of red, green, blue; `colour` is the row's, 0 or 2. */
export function colours(
  plane: usize,
  stride: u32,
  row: i32,
  colourColumn: u32,
  colour: u32,
  width: u32,
  p: usize,
  to: usize,
): void {
  const margin = ringMargin << 2;
  const root = rowOf(plane, rootRing, row, stride) + margin;
  const blends = rowOf(plane, blendRing, row, stride) + margin;
  const blendsUp = rowOf(plane, blendRing, row - 1, stride) + margin;
  const blendsDown = rowOf(plane, blendRing, row + 1, stride) + margin;
  const crosses = rowOf(plane, crossRing, row, stride) + margin;
  const crossesUp = rowOf(plane, crossRing, row - 1, stride) + margin;
  const crossesDown = rowOf(plane, crossRing, row + 1, stride) + margin;
  const limitC = number(p, colour);
  const limitG = number(p, 1);
  const limitO = number(p, 2 - colour);
  const isGreen = colourColumn === 0 ? i32x4(0, -1, 0, -1) : i32x4(-1, 0, -1, 0);
  for (let column: u32 = 0; column < width; column += 4) {
    const i = column << 2;
    const own = v128.load(root + i);
    const ownLight = lightOf(own);
    const blended = v128.load(blends + i);
    const crossesAbove = f32x4.add(v128.load(crossesUp + i), v128.load(crossesDown + i));
    const blendsAbove = f32x4.add(v128.load(blendsUp + i), v128.load(blendsDown + i));
    const cAtGreen = f32x4.sub(own, times(0.25, f32x4.add(twoBeside(blends + i, 4), crossesAbove)));
    const oAtGreen = f32x4.sub(own, times(0.25, f32x4.add(twoBeside(crosses + i, 4), blendsAbove)));
    const greenAtColour = f32x4.add(own, blended);
    const oAtColour = f32x4.sub(greenAtColour, v128.load(crosses + i));
    const green = v128.bitselect(ownLight, f32x4.pmin(limitG, lightOf(greenAtColour)), isGreen);
    const c = v128.bitselect(f32x4.pmin(limitC, lightOf(cAtGreen)), ownLight, isGreen);
    const o = f32x4.pmin(limitO, lightOf(v128.bitselect(oAtGreen, oAtColour, isGreen)));
    if (colour === 0) storeRgb(to + column * 12, c, green, o);
    else storeRgb(to + column * 12, o, green, c);
  }
}

@inline
function rowOf(plane: usize, ring: u32, row: i32, stride: u32): usize {
  return plane + (ring * ringRows + (<u32>row & (ringRows - 1))) * stride;
}

@inline
function threeRows(here: usize, up: usize, down: usize): v128 {
  return f32x4.add(f32x4.add(v128.load(here), v128.load(up)), v128.load(down));
}

@inline
function twoBeside(at: usize, bytes: usize): v128 {
  return f32x4.add(v128.load(at - bytes), v128.load(at + bytes));
}

@inline
function calmness(sum: v128): v128 {
  return f32x4.div(f32x4.splat(1), f32x4.add(f32x4.splat(unrestFloor), f32x4.mul(sum, sum)));
}

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
function number(p: usize, index: u32): v128 {
  return v128.load32_splat(p + (index << 2));
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

/** Part of the way to a target. */
@inline
function towards(value: v128, target: v128, share: v128): v128 {
  return f32x4.add(value, f32x4.mul(share, f32x4.sub(target, value)));
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

/** A table at four positions from 0 on. Each lane's pair of neighbouring samples comes in one load of 64 bits. */
@inline
function sampled(position: v128, samples: usize): v128 {
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

/** From the root scale back, below its foot too. */
@inline
function lightOf(root: v128): v128 {
  return f32x4.sub(f32x4.mul(root, f32x4.abs(root)), f32x4.splat(rootFoot));
}

@inline
function times(factor: f32, value: v128): v128 {
  return f32x4.mul(f32x4.splat(factor), value);
}

/** The channels of four pixels out of twelve floats, r g b r | g b r g | b r g b. */
@inline
function redOf(first: v128, second: v128, third: v128): v128 {
  return v128.shuffle<f32>(v128.shuffle<f32>(first, second, 0, 3, 6, 6), third, 0, 1, 2, 5);
}

@inline
function greenOf(first: v128, second: v128, third: v128): v128 {
  return v128.shuffle<f32>(v128.shuffle<f32>(first, second, 1, 4, 7, 7), third, 0, 1, 2, 6);
}

@inline
function blueOf(first: v128, second: v128, third: v128): v128 {
  return v128.shuffle<f32>(v128.shuffle<f32>(first, second, 2, 5, 5, 5), third, 0, 1, 4, 7);
}

/** The same back. */
@inline
function storeRgb(to: usize, r: v128, g: v128, b: v128): void {
  const rg01 = v128.shuffle<f32>(r, g, 0, 4, 1, 5);
  const rg23 = v128.shuffle<f32>(r, g, 2, 6, 3, 7);
  const gb1 = v128.shuffle<f32>(rg01, b, 3, 5, 3, 5);
  v128.store(to, v128.shuffle<f32>(rg01, b, 0, 1, 4, 2));
  v128.store(to, v128.shuffle<f32>(gb1, rg23, 0, 1, 4, 5), 16);
  v128.store(to, v128.shuffle<f32>(rg23, b, 6, 2, 3, 7), 32);
}
