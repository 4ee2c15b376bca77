/** From a potter's drawing to a solid that rays can meet. */
import type { CurveFields } from '../kernels/curve-field.ts';
import type { Limb, Solid } from '../kernels/solid.ts';
import { type ControlPoint, curveFields, type FieldArea } from './thick-curve.ts';

export interface WareShape {
  /** Middle of the wall, from the centre of the floor out and up to the rim: radius, height, half thickness. */
  readonly wall: readonly ControlPoint[];
  /** Further revolved curves: a foot ring, a knob. */
  readonly extras?: readonly (readonly ControlPoint[])[];
  readonly limbs?: readonly LimbShape[];
  /** Radius of the fillet where limbs meet the wall. */
  readonly fillet?: number;
  readonly lip?: { readonly pull: number; readonly from: number; readonly to: number };
}

export interface LimbShape {
  /** In the plane through the axis; x is negative on the other side. */
  readonly spine: readonly ControlPoint[];
  readonly flatness: number;
  readonly bore?: number;
  /** A spout's mouth: everything beyond the line is cut away. */
  readonly cut?: { readonly x: number; readonly y: number; readonly at: number };
}

export interface Placing {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  /** Turn about the vertical, degrees. */
  readonly turn: number;
}

/** Room left around the clay, mm. */
const clearance = 1.5;
/**
 * Fields reach this much further than a fillet is wide. Beyond its edge a field repeats, which is nearer than the
 * truth: steps are shorter there, and no fillet can grow out of it.
 */
const fieldMargin = 4;

/** The fields of a shape are costly, so one shape is solidified once and placed as often as wanted. */
export function solidify(shape: WareShape): (placing: Placing, glaze: number) => Solid {
  const box = boxOf(shape);
  const fillet = shape.fillet ?? 4;
  const area: FieldArea = {
    left: 0,
    right: bodyRadius(shape) + fillet + fieldMargin,
    bottom: box[1],
    top: box[4],
  };
  const [body, ...extras] = [shape.wall, ...(shape.extras ?? [])].map((curve) => curveFields(curve, area));
  if (body === undefined) throw new Error('a shape has a wall');
  for (const extra of extras) mergeFields(body, extra);
  const limbs = (shape.limbs ?? []).map((limb) => makeLimb(limb, fillet));
  return ({ x, y, z, turn }, glaze) => ({
    x,
    y,
    z,
    cos: Math.cos((turn * Math.PI) / 180),
    sin: Math.sin((turn * Math.PI) / 180),
    box: Float64Array.from(box),
    distance: body.distance,
    side: body.side,
    along: body.along,
    limbs,
    fillet,
    lipPull: shape.lip?.pull ?? 0,
    lipFrom: shape.lip?.from ?? 0,
    lipTo: shape.lip?.to ?? 1,
    lying: 0,
    glaze,
    stuff: -1,
  });
}

/** A limb with the fields it is met by; `fillet` is the widest that anything joins it with. */
export function makeLimb(limb: LimbShape, fillet: number): Limb {
  const bounds = boundsOf(limb);
  const [left = 0, right = 0, bottom = 0, top = 0] = bounds;
  const reach = fillet + fieldMargin;
  const plane = { left: left - reach, right: right + reach, bottom: bottom - reach, top: top + reach };
  const fields = curveFields(limb.spine, plane);
  const spine = { ...fields.side, values: fields.side.values.map(Math.abs) };
  return {
    spine,
    half: fields.half,
    along: fields.along,
    flatness: limb.flatness,
    bore: limb.bore ?? 0,
    boreAlong: 0.6,
    cutX: limb.cut?.x ?? 0,
    cutY: limb.cut?.y ?? 0,
    cutAt: limb.cut?.at ?? 1e6,
    bounds,
  };
}

function boundsOf({ spine, flatness }: LimbShape): Float64Array {
  return Float64Array.of(
    Math.min(...spine.map(([x, , half]) => x - half)) - clearance,
    Math.max(...spine.map(([x, , half]) => x + half)) + clearance,
    Math.min(...spine.map(([, y, half]) => y - half)) - clearance,
    Math.max(...spine.map(([, y, half]) => y + half)) + clearance,
    Math.max(...spine.map(([, , half]) => half)) / flatness + clearance,
  );
}

/** A foot or a knob joins the wall: where it is nearer it decides, and counts as the outside's lowest part. */
function mergeFields(body: CurveFields, extra: CurveFields): void {
  body.distance.values.forEach((distance, index) => {
    const other = extra.distance.values[index] ?? distance;
    if (other >= distance) return;
    body.distance.values[index] = other;
    body.side.values[index] = 10;
    body.along.values[index] = 0;
  });
}

type Box = readonly [number, number, number, number, number, number];

function boxOf(shape: WareShape): Box {
  const revolved = revolvedPoints(shape);
  const limbs = (shape.limbs ?? []).flatMap(({ spine, flatness }) =>
    spine.map((point) => ({ point, width: point[2] / flatness })),
  );
  const pull = shape.lip?.pull ?? 0;
  const radius = bodyRadius(shape) + clearance;
  const heights = [...revolved, ...limbs.map(({ point }) => point)];
  const limbXs = limbs.flatMap(({ point: [x, , half] }) => [x - half - clearance, x + half + clearance]);
  return [
    Math.min(-radius, ...limbXs),
    Math.min(...heights.map(([, y, half]) => y - half)) - clearance,
    -Math.max(radius, ...limbs.map(({ width }) => width + clearance)),
    Math.max(radius + pull, ...limbXs),
    Math.max(...heights.map(([, y, half]) => y + half)) + clearance,
    Math.max(radius, ...limbs.map(({ width }) => width + clearance)),
  ];
}

function bodyRadius(shape: WareShape): number {
  return Math.max(...revolvedPoints(shape).map(([radius, , half]) => radius + half));
}

function revolvedPoints(shape: WareShape): readonly ControlPoint[] {
  return [shape.wall, ...(shape.extras ?? [])].flat();
}
