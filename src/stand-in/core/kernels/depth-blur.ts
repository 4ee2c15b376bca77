/**
 * What a thin lens does to things before and behind its plane of focus. Kernel: a picture seen through a pinhole, with
 * a circle of confusion for each pixel, becomes the picture of the lens.
 *
 * Gathered pixel by pixel (M. Potmesil and I. Chakravarty, "A Lens and Aperture Camera Model for Synthetic Image
 * Generation", SIGGRAPH 1981), with two corrections where things overlap: what lies behind a pixel spreads over it no
 * wider than the pixel's own circle, and what lies before it covers it by the share of light it takes away.
 */
export interface DepthBlurInput {
  /** RGB interleaved, linear. */
  readonly linear: Float32Array;
  /** Radius of each pixel's circle, pixels, as a kernel radius (see `circle-of-confusion.ts`). */
  readonly radius: Float32Array;
  /** Distance along the lens's axis, mm. */
  readonly depth: Float32Array;
  /** 1 where there is something to blur; 0 on ground whose texture was made as coarse as its circle already. */
  readonly detail: Uint8Array;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Where the part that is wanted lies in the rendering; `apronPx` around it is only gathered from. */
  readonly left: number;
  readonly top: number;
  readonly outWidthPx: number;
  readonly outHeightPx: number;
  readonly apronPx: number;
  readonly radiusMaxPx: number;
}

/** Pixels per side of a tile that is surveyed at once; an apron is this much wider than the largest radius. */
export const blurTilePx = 16;
/** A radius up to here is a kernel of one pixel. */
const sharpRadius = 0.501;
/** Radii beyond this are gathered from every second pixel, those beyond four times as much from every third. */
const denseRadius = 4.2;
/** Nearer or further than this is another thing, mm. */
const apartMm = 6;

/** Fills `out`, RGB interleaved, `outWidthPx * outHeightPx`. */
export function blurDepth(input: DepthBlurInput, out: Float32Array): void {
  const { linear, widthPx, apronPx, outWidthPx, outHeightPx, left, top } = input;
  for (let row = 0; row < outHeightPx; row++) {
    const from = ((row + apronPx) * widthPx + apronPx) * 3;
    out.set(linear.subarray(from, from + outWidthPx * 3), row * outWidthPx * 3);
  }
  // Tiles lie on the rendering, not on the region, so that a pixel never depends on who asks.
  const firstX = Math.floor(left / blurTilePx);
  const firstY = Math.floor(top / blurTilePx);
  const columns = Math.ceil((left + outWidthPx) / blurTilePx) - firstX;
  const rows = Math.ceil((top + outHeightPx) / blurTilePx) - firstY;
  const tiles = surveyTiles(input, firstX, firstY, columns, rows);
  for (let ty = 0; ty < rows; ty++) {
    for (let tx = 0; tx < columns; tx++) {
      const reach = tiles[ty * columns + tx];
      const x = (firstX + tx) * blurTilePx - left;
      const y = (firstY + ty) * blurTilePx - top;
      if (reach > sharpRadius) blurTile(input, x, y, reach, out);
    }
  }
}

/** Largest radius in and around each tile, as far as any reaches; 0 where nothing there has detail. */
function surveyTiles(
  input: DepthBlurInput,
  firstX: number,
  firstY: number,
  columns: number,
  rows: number,
): Float32Array {
  const { heightPx, left, top, apronPx, radiusMaxPx } = input;
  const most = new Float32Array(columns * heightPx);
  const busy = new Uint8Array(columns * heightPx);
  const firstColumn = firstX * blurTilePx - left + apronPx - radiusMaxPx;
  for (let row = 0; row < heightPx; row++) surveyRow(input, row, firstColumn, columns, most, busy);
  const reach = new Float32Array(columns * rows);
  const firstRow = firstY * blurTilePx - top + apronPx - radiusMaxPx;
  for (let ty = 0; ty < rows; ty++) {
    const from = Math.max(0, firstRow + ty * blurTilePx);
    const to = Math.min(heightPx, firstRow + (ty + 1) * blurTilePx + 2 * radiusMaxPx);
    for (let tx = 0; tx < columns; tx++) {
      let largest = 0;
      let found = 0;
      for (let row = from; row < to; row++) {
        const at = row * columns + tx;
        if (most[at] > largest) largest = most[at];
        found |= busy[at];
      }
      reach[ty * columns + tx] = found === 1 ? largest : 0;
    }
  }
  return reach;
}

function surveyRow(
  { radius, detail, widthPx, radiusMaxPx }: DepthBlurInput,
  row: number,
  firstColumn: number,
  columns: number,
  most: Float32Array,
  busy: Uint8Array,
): void {
  for (let tx = 0; tx < columns; tx++) {
    const from = row * widthPx + Math.max(0, firstColumn + tx * blurTilePx);
    const to = row * widthPx + Math.min(widthPx, firstColumn + (tx + 1) * blurTilePx + 2 * radiusMaxPx);
    let largest = 0;
    let found = 0;
    for (let at = from; at < to; at++) {
      if (radius[at] > largest) largest = radius[at];
      found |= detail[at];
    }
    most[row * columns + tx] = largest;
    busy[row * columns + tx] = found;
  }
}

function blurTile(input: DepthBlurInput, x0: number, y0: number, reach: number, out: Float32Array): void {
  const { apronPx, outWidthPx, outHeightPx } = input;
  const lastX = Math.min(outWidthPx, x0 + blurTilePx);
  const lastY = Math.min(outHeightPx, y0 + blurTilePx);
  for (let y = Math.max(0, y0); y < lastY; y++) {
    for (let x = Math.max(0, x0); x < lastX; x++) {
      blurPixel(input, x + apronPx, y + apronPx, reach, out, (y * outWidthPx + x) * 3);
    }
  }
}

function blurPixel(
  input: DepthBlurInput,
  px: number,
  py: number,
  reach: number,
  out: Float32Array,
  to: number,
): void {
  const { linear, radius, depth, widthPx, heightPx } = input;
  const stride = reach <= denseRadius ? 1 : reach <= 4 * denseRadius ? 2 : 3;
  const steps = Math.floor((reach + 0.5) / stride);
  const own = radius[py * widthPx + px];
  const here = depth[py * widthPx + px];
  let red = 0;
  let green = 0;
  let blue = 0;
  let weight = 0;
  let nearRed = 0;
  let nearGreen = 0;
  let nearBlue = 0;
  let covered = 0;
  for (let j = -steps; j <= steps; j++) {
    const y = py + j * stride;
    if (y < 0 || y >= heightPx) continue;
    for (let i = -steps; i <= steps; i++) {
      const x = px + i * stride;
      if (x < 0 || x >= widthPx) continue;
      const at = y * widthPx + x;
      const away = depth[at];
      const spread = away > here + apartMm && radius[at] > own ? own : radius[at];
      const reachHere = spread + 0.5;
      const square = (i * i + j * j) * stride * stride;
      if (square >= reachHere * reachHere) continue;
      const rim = reachHere - Math.sqrt(square);
      // A disc with a rim one pixel wide has the area of one of its middle radius, and a twelfth.
      const share = Math.min(rim, 1) / (spread * spread + 0.0833);
      const k = at * 3;
      if (away < here - apartMm) {
        nearRed += share * linear[k];
        nearGreen += share * linear[k + 1];
        nearBlue += share * linear[k + 2];
        covered += share;
      } else {
        red += share * linear[k];
        green += share * linear[k + 1];
        blue += share * linear[k + 2];
        weight += share;
      }
    }
  }
  const full = (covered * stride * stride) / Math.PI;
  const cover = Math.min(full, 1);
  const back = weight > 0 ? (1 - cover) / weight : 0;
  const front = covered > 0 ? cover / covered : 0;
  out[to] = red * back + nearRed * front;
  out[to + 1] = green * back + nearGreen * front;
  out[to + 2] = blue * back + nearBlue * front;
}
