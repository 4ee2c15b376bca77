import { type Chromaticity, temperatureToXy, xyToDuv, xyToTemperature } from '../../../colour/index.ts';

/** The part of CIE 1960 u, v that is drawn: where lights to photograph by lie. v runs up. */
export const uvShown = { u0: 0.155, u1: 0.345, v0: 0.26, v1: 0.385 } as const;

export interface UvFrame {
  readonly width: number;
  readonly height: number;
}

type Uv = readonly [u: number, v: number];

/** CIE 15:2018, 8.1. */
function uvOf([x, y]: Chromaticity): Uv {
  const divisor = -2 * x + 12 * y + 3;
  return [(4 * x) / divisor, (6 * y) / divisor];
}

function xyOf([u, v]: Uv): Chromaticity {
  const divisor = 2 * u - 8 * v + 4;
  return [(3 * u) / divisor, (2 * v) / divisor];
}

export function placeOf({ width, height }: UvFrame, xy: Chromaticity): { x: number; y: number } {
  const [u, v] = uvOf(xy);
  return {
    x: ((u - uvShown.u0) / (uvShown.u1 - uvShown.u0)) * width,
    y: (1 - (v - uvShown.v0) / (uvShown.v1 - uvShown.v0)) * height,
  };
}

/** A light's temperature and distance from the Planckian locus, of a place in the drawing. */
export function lightAt(
  { width, height }: UvFrame,
  x: number,
  y: number,
): { temperatureK: number; duv: number } {
  const u = uvShown.u0 + (x / width) * (uvShown.u1 - uvShown.u0);
  const v = uvShown.v0 + (1 - y / height) * (uvShown.v1 - uvShown.v0);
  const xy = xyOf([u, v]);
  return { temperatureK: xyToTemperature(xy), duv: xyToDuv(xy) };
}

export function planckianLocus(frame: UvFrame): readonly { x: number; y: number }[] {
  return miredSteps(40, 600, 10).map((mired) => placeOf(frame, temperatureToXy(1e6 / mired)));
}

/**
 * The daylight locus from 4000 to 25,000 K. CIE 15:2018, 4.1.2: x by cubics of the temperature, y by a parabola of x.
 */
export function daylightLocus(frame: UvFrame): readonly { x: number; y: number }[] {
  return miredSteps(40, 250, 5).map((mired) => placeOf(frame, daylightXy(1e6 / mired)));
}

export function daylightXy(temperatureK: number): Chromaticity {
  const t = 1000 / temperatureK;
  const x =
    temperatureK <= 7000
      ? -4.607 * t ** 3 + 2.9678 * t ** 2 + 0.09911 * t + 0.244063
      : -2.0064 * t ** 3 + 1.9018 * t ** 2 + 0.24748 * t + 0.23704;
  return [x, -3 * x * x + 2.87 * x - 0.275];
}

export interface UvTick {
  readonly temperatureK: number;
  readonly from: { x: number; y: number };
  readonly to: { x: number; y: number };
}

/** Short pieces of isotemperature lines with their temperatures. */
export function temperatureTicks(frame: UvFrame): readonly UvTick[] {
  return [2000, 2500, 3200, 4000, 5000, 6500, 10_000, 20_000].map((temperatureK) => ({
    temperatureK,
    from: placeOf(frame, temperatureToXy(temperatureK, 0.006)),
    to: placeOf(frame, temperatureToXy(temperatureK, -0.006)),
  }));
}

function miredSteps(from: number, to: number, step: number): readonly number[] {
  return Array.from({ length: Math.round((to - from) / step) + 1 }, (_, index) => from + index * step);
}
