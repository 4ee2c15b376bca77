/** From the mosaic to camera light at full size: kernels/demosaic-rows.ts and balance-rows.ts. */
import { number, storeRgb, times } from './vectors';

const rootFoot: f32 = 0.0078125;

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

/** From the root scale back, below its foot too. */
@inline
function lightOf(root: v128): v128 {
  return f32x4.sub(f32x4.mul(root, f32x4.abs(root)), f32x4.splat(rootFoot));
}
