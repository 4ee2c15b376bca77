import { applyMatrix, type Matrix3, parseMatrix, type Vector3, xyToUv76 } from '../../colour/index.ts';
import type { CameraProfile, ColourDrift, ColourMap, Triple } from '../../facts/index.ts';
import { middle } from '../exposed/light-map.ts';
import { colourDrift } from './drift.ts';
import { chromaticityD65 } from './grey-error.ts';

/** Parts that can be compared, and those of them that have to agree, share. */
const partsMin = 24;
const agreeMin = 0.25;
/** Parts agree whose light has changed alike, stops, and whose colour has, u'v'. */
const evMax = 0.3;
const uvMax = 0.002;
/** What changes by this much more than the middle is another thing standing there. */
const spreads = 2;

interface Moved {
  readonly before: Vector3;
  readonly after: Vector3;
  readonly ev: number;
  readonly du: number;
  readonly dv: number;
}

/**
 * How the colours of what stands still have moved between two frames, the first of them with the target: parts of the
 * picture whose light and colour changed alike (the backdrop, mostly; where the target lay something else stands). As both are
 * developed: each by its own balance and the camera's matrix, or both by the target's `profile`. Null where nothing can be compared,
 * or no part of the picture agrees with another.
 */
export function partsDrift(
  before: ColourMap,
  after: ColourMap,
  profile: CameraProfile | null,
): ColourDrift | null {
  if (before.source !== after.source || before.columns !== after.columns || before.rows !== after.rows) {
    return null;
  }
  const [first, second] = [xyzOf(before, profile), xyzOf(after, profile)];
  if (first === null || second === null) return null;
  const moved = before.light.flatMap((light, part) => {
    const other = after.light[part] ?? null;
    return light === null || other === null ? [] : movedOf(first(light), second(other));
  });
  if (moved.length < partsMin) return null;
  const [du, dv, ev] = [
    middle(moved.map((part) => part.du)),
    middle(moved.map((part) => part.dv)),
    middle(moved.map((part) => part.ev)),
  ];
  const off = (part: Moved): number => Math.hypot(part.du - du, part.dv - dv);
  const near = Math.min(uvMax, Math.max(uvMax / 4, spreads * middle(moved.map(off))));
  const still = moved.filter((part) => off(part) <= near && Math.abs(part.ev - ev) <= evMax);
  if (still.length < agreeMin * moved.length) return null;
  return colourDrift(
    still.map((part) => part.before),
    still.map((part) => part.after),
  );
}

/** Light before balance to XYZ D50; null where nobody knows how. */
function xyzOf(
  { multipliers, toXyz }: ColourMap,
  profile: CameraProfile | null,
): ((light: Triple) => Vector3) | null {
  const by = profile?.multipliers ?? multipliers;
  const given = profile?.multipliers == null ? toXyz : profile.toXyz;
  const matrix: Matrix3 | null = given === null ? null : parseMatrix(given);
  if (matrix === null) return null;
  return ([r, g, b]) => applyMatrix(matrix, [r * by[0], g * by[1], b * by[2]]);
}

function movedOf(before: Vector3, after: Vector3): Moved[] {
  if (!(before[1] > 0 && after[1] > 0)) return [];
  const [u0, v0] = xyToUv76(chromaticityD65(before));
  const [u1, v1] = xyToUv76(chromaticityD65(after));
  return [{ before, after, ev: Math.log2(after[1] / before[1]), du: u1 - u0, dv: v1 - v0 }];
}
