/** The rectangle on the sensor that holds the ware of a shot. */

import type { ShotName } from './frame-plan.ts';
import type { FrameSize } from './frame-size.ts';
import type { ThickCurve } from './kernels/curve-field.ts';
import type { Camera } from './kernels/stage.ts';
import { project } from './projection.ts';
import { type SetPiece, setShots } from './set-list.ts';
import { dot, type Vector } from './vector.ts';
import type { LimbShape } from './ware/shape.ts';
import { thickCurve } from './ware/thick-curve.ts';

/** left, top, right, bottom in pixels as the sensor lies. */
export type PixelBox = readonly [number, number, number, number];

/** Around the axis of a revolved curve. */
const azimuths = 120;

/** Ware that stands `shiftMm` to the right of its place. Shadows do not belong to it, nor what lies about. */
export function subjectBox(shot: ShotName, camera: Camera, size: FrameSize, shiftMm: number): PixelBox {
  const box: [number, number, number, number] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const piece of setShots[shot].pieces) {
    growBox(box, camera, size, { ...piece, x: piece.x + shiftMm });
  }
  return box;
}

type OpenBox = [number, number, number, number];

function growBox(box: OpenBox, camera: Camera, size: FrameSize, piece: SetPiece): void {
  const { wall, extras, limbs, lip } = piece.shape;
  const grow = ballGrower(box, camera, size, piece);
  for (const curve of [wall, ...(extras ?? [])].map(thickCurve)) {
    eachPoint(curve, (radius, y, half) => {
      if (lip === undefined || y + half <= lip.from) growRing(grow, radius, y, half, 0);
      else growLip(grow, lip, radius, y, half);
    });
  }
  for (const limb of limbs ?? []) {
    eachPoint(thickCurve(limb.spine), (x, y, half) => {
      if (limb.cut === undefined) grow([x, y, 0], half, limb.flatness);
      else growCut(grow, limb.cut, x, y, half);
    });
  }
}

/** Of a limb that is cut off, the part of its outline in the limb's plane that is left. */
function growCut(grow: Grow, cut: NonNullable<LimbShape['cut']>, x: number, y: number, half: number): void {
  for (let n = 0; n < 24; n++) {
    const angle = (Math.PI * n) / 12;
    const [px, py] = [x + half * Math.cos(angle), y + half * Math.sin(angle)];
    if (cut.x * px + cut.y * py <= cut.at) grow([px, py, 0], 0, 1);
  }
}

type Grow = (at: Vector, half: number, flatness: number) => void;

/** A ring of clay; the lip pulls its side towards +x out by `pull`. */
function growRing(grow: Grow, radius: number, y: number, half: number, pull: number): void {
  for (let k = 0; k < azimuths; k++) {
    const angle = (2 * Math.PI * k) / azimuths;
    const out = radius + (Math.cos(angle) > 0 ? pull * Math.cos(angle) ** 4 : 0);
    grow([out * Math.cos(angle), y, out * Math.sin(angle)], half, 1);
  }
}

/** The pull grows with height, within the wall's own thickness, too: its skin is followed instead of its middle. */
function growLip(
  grow: Grow,
  lip: { pull: number; from: number; to: number },
  radius: number,
  y: number,
  half: number,
): void {
  for (let n = 0; n < 12; n++) {
    const angle = (Math.PI * n) / 6;
    const height = y + half * Math.sin(angle);
    const grown = Math.min(1, Math.max(0, (height - lip.from) / (lip.to - lip.from)));
    growRing(grow, radius + half * Math.cos(angle), height, 0, lip.pull * grown * grown);
  }
}

function eachPoint({ x, y, half }: ThickCurve, visit: (x: number, y: number, half: number) => void): void {
  for (let k = 0; k < x.length; k++) visit(x[k] ?? 0, y[k] ?? 0, half[k] ?? 0);
}

/** Takes in a ball of clay, or an ellipsoid that is wider across its limb's plane, at a point of the piece's own frame. */
function ballGrower(box: OpenBox, camera: Camera, size: FrameSize, piece: SetPiece): Grow {
  const cos = Math.cos((piece.turn * Math.PI) / 180);
  const sin = Math.sin((piece.turn * Math.PI) / 180);
  const across: Vector = [sin, 0, cos];
  const unit = (axis: Float64Array): Vector => {
    const scale = 1 / Math.hypot(...axis);
    return [(axis[0] ?? 0) * scale, (axis[1] ?? 0) * scale, (axis[2] ?? 0) * scale];
  };
  const acrossX = dot(unit(camera.right), across) ** 2;
  const acrossY = dot(unit(camera.down), across) ** 2;
  return ([x, y, z], half, flatness) => {
    const world = [piece.x + cos * x + sin * z, piece.y + y, piece.z - sin * x + cos * z];
    const seen = project(camera, size, world);
    const wider = 1 / (flatness * flatness) - 1;
    const reachX = (half * Math.sqrt(1 + wider * acrossX)) / seen.mmPerPx;
    const reachY = (half * Math.sqrt(1 + wider * acrossY)) / seen.mmPerPx;
    box[0] = Math.min(box[0], seen.x - reachX);
    box[1] = Math.min(box[1], seen.y - reachY);
    box[2] = Math.max(box[2], seen.x + reachX);
    box[3] = Math.max(box[3], seen.y + reachY);
  };
}
