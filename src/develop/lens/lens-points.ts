import type { GainMap, LensCorrections, LensStep } from '../../facts/index.ts';
import { fisheyePoints, mapGains, radialGains, warpPoints } from '../kernels/lens-points.ts';
import { lensCentre, mapBounds } from './lens-reference.ts';

/** Points of one colour, or of all where they are the same. */
export interface LensPoints {
  readonly xs: Float64Array;
  readonly ys: Float64Array;
  readonly gains: Float64Array;
}

/** Takes `count` points, as shown, to where their light is found. */
type Step = (points: LensPoints, count: number) => void;

/** Whether all colours take one way. */
export function isOneWay({ steps }: Pick<LensCorrections, 'steps'>): boolean {
  return steps.every((step) =>
    step.kind === 'gain-map'
      ? step.plane === 0 && step.planes >= 3 && step.mapPlanes === 1
      : step.kind === 'radial-gain' || step.planes.length === 1,
  );
}

/** The kernels of one colour's steps, from the last to the first; see `lensPoint`. */
export function lensSteps({ area, steps }: Pick<LensCorrections, 'area' | 'steps'>, plane: number): Step {
  const bound = [...steps].reverse().map((step) => stepOf(step, area, plane));
  return (points, count) => {
    for (const step of bound) step(points, count);
  };
}

function stepOf(step: LensStep, area: LensCorrections['area'], plane: number): Step {
  if (step.kind === 'gain-map') return mapStep(step, area, plane);
  const { x, y, unit } = lensCentre(area, step);
  if (step.kind === 'radial-gain') {
    const k = Float64Array.from(step.k);
    return ({ xs, ys, gains }, count) => radialGains(xs, ys, gains, count, k, x, y, unit);
  }
  if (step.kind === 'fisheye') {
    const [k0, k1, k2, k3] = step.planes[plane] ?? step.planes[0] ?? [1, 0, 0, 0];
    return ({ xs, ys }, count) => fisheyePoints(xs, ys, count, k0, k1, k2, k3, x, y, unit);
  }
  const own = step.planes[plane] ?? step.planes[0];
  if (own === undefined) return () => undefined;
  const radial = Float64Array.from(own.radial);
  const [t0, t1] = own.tangential;
  const [low, high] = own.range;
  return ({ xs, ys }, count) =>
    warpPoints(xs, ys, count, radial, t0, t1, low, high, own.isReciprocal, x, y, unit);
}

function mapStep(map: GainMap, { widthPx, heightPx }: LensCorrections['area'], plane: number): Step {
  const of = plane - map.plane;
  if (of < 0 || of >= map.planes) return () => undefined;
  const { pointsV, pointsH, mapPlanes, spacing, origin } = map;
  const own = Math.min(mapPlanes - 1, of);
  const gains = Float32Array.from(
    { length: pointsV * pointsH },
    (_, at) => map.gains[at * mapPlanes + own] ?? 1,
  );
  const numbers = Float64Array.of(
    ...mapBounds(map, { widthPx, heightPx }),
    ...onMap(heightPx, origin[0], spacing[0]),
    ...onMap(widthPx, origin[1], spacing[1]),
  );
  return (points, count) =>
    mapGains(points.xs, points.ys, points.gains, count, gains, pointsV, pointsH, numbers);
}

/** ((p + 0.5) / length - origin) / spacing as (p + shift) * factor; 0 for a map of one point. */
function onMap(length: number, origin: number, spacing: number): readonly [number, number] {
  return spacing > 0 ? [0.5 - origin * length, 1 / (length * spacing)] : [0, 0];
}
