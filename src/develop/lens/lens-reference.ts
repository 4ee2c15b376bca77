import type {
  GainMap,
  LensCorrections,
  LensFisheye,
  LensStep,
  LensWarp,
  RadialGain,
} from '../../facts/index.ts';

/**
 * A lens's corrections one point at a time: obvious, slow, and the documentation of the kernels. DNG 1.7.1, chapter 7.
 * Points are in pixels of the area; whole numbers are the middles of pixels.
 */
export interface Found {
  readonly x: number;
  readonly y: number;
  /** What the light found there is multiplied by. */
  readonly gain: number;
}

type Area = LensCorrections['area'];

/** Where the light shown at a point is found, for one colour: the steps from the last to the first. */
export function lensPoint(
  { area, steps }: Pick<LensCorrections, 'area' | 'steps'>,
  plane: number,
  shown: readonly [x: number, y: number],
): Found {
  let [x, y] = shown;
  let gain = 1;
  for (const step of [...steps].reverse()) {
    if (step.kind === 'radial-gain') gain *= radialGain(step, area, x, y);
    else if (step.kind === 'gain-map') gain *= mapGain(step, area, plane, x, y);
    else [x, y] = step.kind === 'warp' ? warp(step, area, plane, x, y) : fisheye(step, area, plane, x, y);
  }
  return { x, y, gain };
}

/** The centre, and the distance of the corner that is farthest from it: the unit of r. */
export function lensCentre(
  { widthPx, heightPx }: Area,
  { centre }: Exclude<LensStep, GainMap>,
): { readonly x: number; readonly y: number; readonly unit: number } {
  const x = centre[0] * (widthPx - 1);
  const y = centre[1] * (heightPx - 1);
  const unit = Math.hypot(
    Math.max(Math.abs(x), Math.abs(widthPx - 1 - x)),
    Math.max(Math.abs(y), Math.abs(heightPx - 1 - y)),
  );
  return { x, y, unit };
}

function warp(step: LensWarp, area: Area, plane: number, x: number, y: number): [number, number] {
  const { x: cx, y: cy, unit } = lensCentre(area, step);
  const own = step.planes[plane] ?? step.planes[0];
  if (own === undefined) return [x, y];
  const [dx, dy] = [(x - cx) / unit, (y - cy) / unit];
  const squared = dx * dx + dy * dy;
  const r = Math.min(own.range[1], Math.max(own.range[0], Math.sqrt(squared)));
  const polynomial = own.radial.reduce((sum, k, power) => sum + k * r ** power, 0);
  const f = own.isReciprocal ? 1 / polynomial : polynomial;
  const [t0, t1] = own.tangential;
  return [
    cx + unit * (f * dx + 2 * t0 * dx * dy + t1 * (squared + 2 * dx * dx)),
    cy + unit * (f * dy + 2 * t1 * dx * dy + t0 * (squared + 2 * dy * dy)),
  ];
}

function fisheye(step: LensFisheye, area: Area, plane: number, x: number, y: number): [number, number] {
  const { x: cx, y: cy, unit } = lensCentre(area, step);
  const own = step.planes[plane] ?? step.planes[0];
  if (own === undefined) return [x, y];
  const [dx, dy] = [(x - cx) / unit, (y - cy) / unit];
  const r = Math.hypot(dx, dy);
  const angle = Math.atan(r);
  const bent = own.reduce((sum, k, index) => sum + k * angle ** (2 * index + 1), 0);
  const f = r > 0 ? bent / r : own[0];
  return [cx + unit * f * dx, cy + unit * f * dy];
}

function radialGain(step: RadialGain, area: Area, x: number, y: number): number {
  const { x: cx, y: cy, unit } = lensCentre(area, step);
  const r = Math.hypot(x - cx, y - cy) / unit;
  return step.k.reduce((sum, k, index) => sum + k * r ** (2 * index + 2), 1);
}

/**
 * Where a map holds: from outer edge to outer edge of its pixels, and beyond where it goes to the edge of the area, so that
 * a warp that looks a little outside finds no seam.
 */
export function mapBounds(
  { within }: GainMap,
  { widthPx, heightPx }: Area,
): readonly [number, number, number, number] {
  const [top, left, bottom, right] = within;
  const far = Number.POSITIVE_INFINITY;
  return [
    top === 0 ? -far : top - 0.5,
    left === 0 ? -far : left - 0.5,
    bottom >= heightPx ? far : bottom - 0.5,
    right >= widthPx ? far : right - 0.5,
  ];
}

/** The gain at a point for a colour; 1 where the map does not hold. */
export function mapGain(map: GainMap, area: Area, plane: number, x: number, y: number): number {
  const [top, left, bottom, right] = mapBounds(map, area);
  const of = plane - map.plane;
  if (of < 0 || of >= map.planes || y < top || x < left || y >= bottom || x >= right) return 1;
  const { pointsV, pointsH, spacing, origin } = map;
  const place = (share: number, from: number, step: number, points: number): number =>
    step > 0 ? Math.min(points - 1, Math.max(0, (share - from) / step)) : 0;
  const v = place((y + 0.5) / area.heightPx, origin[0], spacing[0], pointsV);
  const h = place((x + 0.5) / area.widthPx, origin[1], spacing[1], pointsH);
  const at = (row: number, column: number): number =>
    map.gains[
      (Math.min(pointsV - 1, row) * pointsH + Math.min(pointsH - 1, column)) * map.mapPlanes +
        Math.min(map.mapPlanes - 1, of)
    ] ?? 1;
  const [v0, h0] = [Math.floor(v), Math.floor(h)];
  const upper = at(v0, h0) * (1 - (h - h0)) + at(v0, h0 + 1) * (h - h0);
  const lower = at(v0 + 1, h0) * (1 - (h - h0)) + at(v0 + 1, h0 + 1) * (h - h0);
  return upper * (1 - (v - v0)) + lower * (v - v0);
}

/** Cubic convolution, a = -1/2 (Keys 1981, equation 15), of samples at whole places. */
export function cubicSample(at: (place: number) => number, position: number): number {
  const base = Math.floor(position);
  const f = position - base;
  const weight = (distance: number): number => {
    const d = Math.abs(distance);
    if (d < 1) return 1.5 * d ** 3 - 2.5 * d ** 2 + 1;
    return d < 2 ? -0.5 * d ** 3 + 2.5 * d ** 2 - 4 * d + 2 : 0;
  };
  return [-1, 0, 1, 2].reduce((sum, step) => sum + weight(f - step) * at(base + step), 0);
}
