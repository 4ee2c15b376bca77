/** The 24-patch target and where it stands. */
import { chartPatches } from './chart-patches.ts';
import type { FramePurpose, ShotName } from './frame-plan.ts';
import type { Card } from './kernels/stage.ts';
import { labToScene } from './lab-to-scene.ts';
import { chartPlace } from './set-camera.ts';
import { setShots } from './set-list.ts';
import { add, cross, scaled, type Vector } from './vector.ts';

/** Half width, height and thickness, mm. */
export const cardHalf: Vector = [54, 37.5, 1];
/** Thickness of its foot, and the patches' pitch and side at full scale, mm. */
export const cardLiftMm = 0.8;
export const patchPitchMm = 16.5;
export const patchSideMm = 14;
/** How far the standing target leans back, degrees. */
export const cardLean = 24;

/** None where the target is not in the picture. */
export function cardFor(shot: ShotName, purpose: FramePurpose): Card | null {
  if (purpose === 'picture') return null;
  if (purpose === 'chart') return cardAtPlace(chartPlace.centre, [1, 0, 0], [0, 1, 0], 1);
  const { x, z, turn, scale } = setShots[shot].target;
  const yaw = (turn * Math.PI) / 180;
  const lean = (cardLean * Math.PI) / 180;
  const across: Vector = [Math.cos(yaw), 0, -Math.sin(yaw)];
  const behind: Vector = [-Math.sin(yaw), 0, -Math.cos(yaw)];
  const up = add(scaled([0, 1, 0], Math.cos(lean)), scaled(behind, Math.sin(lean)));
  const centre = add([x, cardLiftMm, z], scaled(up, cardHalf[1] * scale));
  return cardAtPlace(centre, across, up, scale);
}

function cardAtPlace(centre: Vector, across: Vector, up: Vector, scale: number): Card {
  return {
    centre: Float64Array.from(centre),
    across: Float64Array.from(across),
    up: Float64Array.from(up),
    face: Float64Array.from(cross(across, up)),
    halfWidth: cardHalf[0] * scale,
    halfHeight: cardHalf[1] * scale,
    halfThickness: cardHalf[2],
    patchPitch: patchPitchMm * scale,
    patchSide: patchSideMm * scale,
    patches: Float64Array.from(chartPatches.flatMap(({ labD50 }) => labToScene(labD50))),
    border: Float64Array.of(0.03, 0.03, 0.03),
  };
}
