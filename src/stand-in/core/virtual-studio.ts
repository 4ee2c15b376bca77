/** Puts a shot together: paper, light, camera, ware, target. */

import { clustered, spheresAbout } from './clusters.ts';
import { type Dressing, dressings } from './dressing/dressing.ts';
import { layOut } from './dressing/lay-out.ts';
import type { FramePurpose, ShotName } from './frame-plan.ts';
import type { FrameSize } from './frame-size.ts';
import type { Glaze, Stage } from './kernels/stage.ts';
import { makePaperLight } from './paper-light.ts';
import { cameraFor } from './set-camera.ts';
import { chartLight, keyCentre, panelsOf } from './set-lights.ts';
import { setShots } from './set-list.ts';
import { backdrop, roomLight } from './set-room.ts';
import { cardFor } from './set-target.ts';
import type { SetVariant } from './set-variant.ts';
import { normalised } from './vector.ts';
import { solidify, type WareShape } from './ware/shape.ts';

const textureSeed = 20_261;

/** The whole stage of one shot, light included. Costs some tenths of a second: fields of the ware, light on the paper. */
export function buildStage(
  shot: ShotName,
  purpose: FramePurpose,
  size: FrameSize,
  variant: SetVariant,
): Stage {
  const set = setShots[shot];
  const shapes = new Map<WareShape, ReturnType<typeof solidify>>();
  const coats: Glaze[] = [];
  const ware = (purpose === 'chart' ? [] : set.pieces).map((piece) => {
    const place = shapes.get(piece.shape) ?? solidify(piece.shape);
    shapes.set(piece.shape, place);
    if (!coats.includes(piece.glaze)) coats.push(piece.glaze);
    return place({ ...piece, x: piece.x + variant.subjectShiftMm }, coats.indexOf(piece.glaze));
  });
  const laid = layOut(purpose === 'chart' ? bare : dressings[shot], textureSeed);
  const standing = clustered([
    ...ware.map((solid) => [solid]),
    ...laid.things.map((solid) => [solid]),
    laid.crumbs,
  ]);
  const stage: Stage = {
    ...standing,
    slabs: [],
    spheres: spheresAbout(standing.solids, []),
    glazes: coats,
    stuffs: laid.stuffs,
    camera: cameraFor(shot, purpose, size),
    card: cardFor(shot, purpose),
    backdrop,
    panels: panelsOf(variant.keyFires),
    keyWay: Float64Array.from(normalised(keyCentre)),
    paperLight: null,
    roomLight: Float64Array.from(roomLight),
    evenLight: purpose === 'chart' ? chartLight : 0,
    seed: textureSeed,
  };
  if (purpose === 'chart') return stage;
  // The light on the paper is the light on what lies flat on it, too.
  return {
    ...stage,
    slabs: laid.slabs,
    spheres: spheresAbout(standing.solids, laid.slabs),
    paperLight: makePaperLight(stage),
  };
}

const bare: Dressing = { slabs: [], things: [], crumbs: null };
