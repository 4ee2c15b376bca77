import type { ColourMap, LightSourceName, Orientation, Triple } from '../../facts/index.ts';
import { type Raster, turnUpright } from '../../image/index.ts';
import type { ColourLight, Reduced } from './colour-light.ts';

/** Parts along the longer and the shorter edge, as those of the light map. */
const along = 24;
const across = 16;
/** Light from here on, share of saturation, counts as lost in a channel. */
const lostFrom = 0.95;
/** A part with more lost light than this, share of its pixels, has no colour. */
const lostMax = 0.02;
/** Below it a channel's mean is not told from noise and stray light: nine stops under saturation. */
const darkBelow = 0.002;

/** Raster that parts are averaged from, px of its long edge: the first one that a target is looked for in. */
export const rasterEdgeMax = 2000;

export interface MapSource {
  readonly source: LightSourceName;
  /** What the light is balanced by, the smallest 1. */
  readonly multipliers: Triple;
  readonly toXyz: readonly number[] | null;
  readonly orientation: Orientation;
}

/** Colours of the parts of an upright frame, before any balance. */
export function readColourMap(light: ColourLight, of: MapSource): ColourMap {
  const { source, multipliers, toXyz, orientation } = of;
  const long = Math.max(light.widthPx, light.heightPx);
  const raster = light.reduced(Math.max(1, Math.ceil(long / rasterEdgeMax)));
  const [columns, rows] = raster.widthPx >= raster.heightPx ? [along, across] : [across, along];
  const stored: Raster<Float32Array> = {
    data: partMeans(raster, columns, rows, multipliers),
    widthPx: columns,
    heightPx: rows,
    channels: 3,
  };
  const upright = turnUpright(stored, orientation);
  return {
    source,
    columns: upright.widthPx,
    rows: upright.heightPx,
    light: Array.from({ length: columns * rows }, (_, part) => colourAt(upright.data, 3 * part)),
    multipliers,
    toXyz,
  };
}

/** Red, green, blue of each part before the balance; NaN where light is lost. */
function partMeans(
  { data, widthPx, heightPx }: Reduced,
  columns: number,
  rows: number,
  [red, green, blue]: Triple,
): Float32Array {
  const means = new Float32Array(columns * rows * 3);
  for (let row = 0; row < rows; row++) {
    const [top, bottom] = span(row, rows, heightPx);
    for (let column = 0; column < columns; column++) {
      const [left, right] = span(column, columns, widthPx);
      let [r, g, b, lost] = [0, 0, 0, 0];
      for (let y = top; y < bottom; y++) {
        const end = (y * widthPx + right) * 3;
        for (let at = (y * widthPx + left) * 3; at < end; at += 3) {
          const ownR = (data[at] ?? 0) / red;
          const ownG = (data[at + 1] ?? 0) / green;
          const ownB = (data[at + 2] ?? 0) / blue;
          r += ownR;
          g += ownG;
          b += ownB;
          if (ownR >= lostFrom || ownG >= lostFrom || ownB >= lostFrom) lost += 1;
        }
      }
      const pixels = (bottom - top) * (right - left);
      const gone = pixels === 0 || lost > lostMax * pixels;
      means.set(
        gone ? [Number.NaN, 0, 0] : [r / pixels, g / pixels, b / pixels],
        (row * columns + column) * 3,
      );
    }
  }
  return means;
}

function span(part: number, parts: number, lengthPx: number): readonly [number, number] {
  return [Math.floor((part * lengthPx) / parts), Math.floor(((part + 1) * lengthPx) / parts)];
}

function colourAt(data: Float32Array, at: number): Triple | null {
  const [red = Number.NaN, green = 0, blue = 0] = data.subarray(at, at + 3);
  if (!(red > darkBelow && green > darkBelow && blue > darkBelow)) return null;
  return [short(red), short(green), short(blue)];
}

/** Five figures are more than any part is worth, and it is kept as text. */
function short(value: number): number {
  return Number(value.toPrecision(5));
}
