/** Puts a shot together: paper, light, camera, ware, target. */

import { settings } from './camera-model.ts';
import { chartPatches } from './chart-patches.ts';
import { clustered, spheresAbout } from './clusters.ts';
import { type Dressing, dressings } from './dressing/dressing.ts';
import { layOut } from './dressing/lay-out.ts';
import type { FramePurpose, ShotName } from './frame-plan.ts';
import type { FrameSize } from './frame-size.ts';
import type { Backdrop, Camera, Card, Glaze, Panel, Stage } from './kernels/stage.ts';
import { labToScene } from './lab-to-scene.ts';
import { makePaperLight } from './paper-light.ts';
import { type CameraPlace, setShots } from './set-list.ts';
import { add, cross, dot, normalised, scaled, type Vector } from './vector.ts';
import { solidify, type WareShape } from './ware/shape.ts';

/** Full-frame sensor (36 mm wide) and the stand-in's lens. */
const sensorWidthMm = 36;
const textureSeed = 20_261;

const backdrop: Backdrop = {
  bendZ: -520,
  bendRadius: 420,
  albedo: Float64Array.from(labToScene([86.5, 0.6, 3.4])),
};

/** The whole stage of one shot, light included. Costs some tenths of a second: fields of the ware, light on the paper. */
export function buildStage(shot: ShotName, purpose: FramePurpose, size: FrameSize): Stage {
  const set = setShots[shot];
  const shapes = new Map<WareShape, ReturnType<typeof solidify>>();
  const coats: Glaze[] = [];
  const ware = (purpose === 'chart' ? [] : set.pieces).map((piece) => {
    const place = shapes.get(piece.shape) ?? solidify(piece.shape);
    shapes.set(piece.shape, place);
    if (!coats.includes(piece.glaze)) coats.push(piece.glaze);
    return place(piece, coats.indexOf(piece.glaze));
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
    ...targetView(shot, purpose, size),
    backdrop,
    panels,
    keyWay: Float64Array.from(normalised(keyCentre)),
    paperLight: null,
    roomLight: Float64Array.of(0.04, 0.04, 0.042),
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

/** Camera and target alone: enough to say where the patches are. */
export function targetView(
  shot: ShotName,
  purpose: FramePurpose,
  size: FrameSize,
): { readonly camera: Camera; readonly card: Card | null } {
  const camera = purpose === 'chart' ? chartCamera(size) : cameraOf(setShots[shot].camera, size);
  return { camera, card: cardOf(shot, purpose) };
}

/** A perfect diffuser shows this much in the evenly lit chart frame. */
export const chartLight = 1;

const keyCentre: Vector = [-650, 440, 320];

/** Key: a softbox from the left, high and a little in front. Back: a strip from above and behind, for the rims. Fill: a white card. */
const panels: readonly Panel[] = [
  panel({
    centre: keyCentre,
    towards: [0, 60, 0],
    widthMm: 470,
    heightMm: 800,
    radiance: 10.5,
    hotspot: 0.5,
    samples: 25,
  }),
  panel({
    centre: [160, 760, -360],
    towards: [0, 20, 0],
    widthMm: 900,
    heightMm: 260,
    radiance: 2.8,
    hotspot: 0.3,
    samples: 9,
  }),
  panel({
    centre: [560, 260, 240],
    towards: [0, 50, 0],
    widthMm: 380,
    heightMm: 620,
    radiance: 0.6,
    hotspot: 0.3,
    samples: 9,
  }),
];

interface PanelPlace {
  readonly centre: Vector;
  readonly towards: Vector;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly radiance: number;
  readonly hotspot: number;
  readonly samples: number;
}

function panel({ centre, towards, widthMm, heightMm, radiance, hotspot, samples }: PanelPlace): Panel {
  const normal = normalised(add(towards, scaled(centre, -1)));
  const across = normalised(cross([0, 1, 0], normal));
  const up = cross(normal, across);
  return {
    centre: Float64Array.from(centre),
    halfU: Float64Array.from(scaled(across, widthMm / 2)),
    halfV: Float64Array.from(scaled(up, heightMm / 2)),
    normal: Float64Array.from(normal),
    radiance: Float64Array.of(radiance, radiance, radiance),
    hotspot,
    samples,
  };
}

/** A camera on a tripod, level, looking down a little; turned on its side where the orientation says so. */
function cameraOf(place: CameraPlace, size: FrameSize): Camera {
  const angle = (place.elevation * Math.PI) / 180;
  const back: Vector = [0, Math.sin(angle), Math.cos(angle)];
  const upright = place.orientation === 1;
  const sceneRight: Vector = [1, 0, 0];
  const sceneUp: Vector = [0, Math.cos(angle), -Math.sin(angle)];
  // Orientation 6: the sensor's left edge is the picture's top, its top edge the picture's right (Exif 2.32, 0x0112).
  const right = upright ? sceneRight : scaled(sceneUp, -1);
  const down = upright ? scaled(sceneUp, -1) : scaled(sceneRight, -1);
  const toFocus = add(place.focus, scaled(place.lookAt, -1));
  const focusMm = place.distanceMm - dot(toFocus, back);
  return sensorAt(
    add(place.lookAt, scaled(back, place.distanceMm)),
    scaled(back, -1),
    right,
    down,
    size,
    focusMm,
  );
}

function sensorAt(
  eye: Vector,
  forward: Vector,
  right: Vector,
  down: Vector,
  size: FrameSize,
  focusMm: number,
): Camera {
  const pixelMm = sensorWidthMm / size.widthPx;
  const focalMm = settings.focalLengthMm;
  // Thin lens: 1 / image + 1 / object = 1 / focal length.
  const imageMm = (focalMm * focusMm) / (focusMm - focalMm);
  return {
    eye: Float64Array.from(eye),
    forward: Float64Array.from(scaled(forward, imageMm)),
    right: Float64Array.from(scaled(right, pixelMm)),
    down: Float64Array.from(scaled(down, pixelMm)),
    centreX: size.marginPx + size.widthPx / 2,
    centreY: size.marginPx + size.heightPx / 2,
    pixelMm,
    lens: { focalMm, apertureMm: (focalMm * settings.fNumber[1]) / settings.fNumber[0], focusMm },
  };
}

/** Straight onto the chart, a little wider than it. */
function chartCamera(size: FrameSize): Camera {
  return sensorAt([0, 200, 390], [0, 0, -1], [1, 0, 0], [0, -1, 0], size, 389);
}

const cardHalf: Vector = [54, 37.5, 1];
/** How far the standing target leans back, degrees. */
const cardLean = 24;

function cardOf(shot: ShotName, purpose: FramePurpose): Card | null {
  if (purpose === 'picture') return null;
  if (purpose === 'chart') return cardAtPlace([0, 200, 0], [1, 0, 0], [0, 1, 0], 1);
  const { x, z, turn, scale } = setShots[shot].target;
  const yaw = (turn * Math.PI) / 180;
  const lean = (cardLean * Math.PI) / 180;
  const across: Vector = [Math.cos(yaw), 0, -Math.sin(yaw)];
  const behind: Vector = [-Math.sin(yaw), 0, -Math.cos(yaw)];
  const up = add(scaled([0, 1, 0], Math.cos(lean)), scaled(behind, Math.sin(lean)));
  const centre = add([x, 0.8, z], scaled(up, cardHalf[1] * scale));
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
    patchPitch: 16.5 * scale,
    patchSide: 14 * scale,
    patches: Float64Array.from(chartPatches.flatMap(({ labD50 }) => labToScene(labD50))),
    border: Float64Array.of(0.03, 0.03, 0.03),
  };
}
