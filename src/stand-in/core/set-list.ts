/** What stands on the set for each shot, and where the camera stands. */
import type { Orientation } from '../../facts/index.ts';
import { boardMm, clothMm } from './dressing/dressing.ts';
import type { ShotName } from './frame-plan.ts';
import type { Glaze } from './kernels/stage.ts';
import { glazes } from './ware/glazes.ts';
import type { Placing, WareShape } from './ware/shape.ts';
import {
  bowl,
  jug,
  mug,
  plate,
  plateRise,
  smallBowl,
  teapot,
  teapotLid,
  teapotLidRise,
} from './ware/shapes.ts';

export interface SetPiece extends Placing {
  readonly shape: WareShape;
  readonly glaze: Glaze;
}

export interface CameraPlace {
  /** What the frame's centre points at, mm. */
  readonly lookAt: readonly [number, number, number];
  readonly distanceMm: number;
  /** What is in focus, mm. */
  readonly focus: readonly [number, number, number];
  /** Above the horizontal, degrees. */
  readonly elevation: number;
  /** Turned by hand for an upright picture. */
  readonly orientation: Orientation;
}

export interface SetShot {
  readonly pieces: readonly SetPiece[];
  readonly camera: CameraPlace;
  /** Where the target's lower edge stands; it leans back and looks at the camera. Targets come in several sizes. */
  readonly target: { readonly x: number; readonly z: number; readonly turn: number; readonly scale: number };
}

const at = (x: number, z: number, turn: number, y = 0): Placing => ({ x, y, z, turn });

const teapotAt = (x: number, z: number, turn: number, coat: Glaze, ground: number): SetPiece[] => [
  { shape: teapot, glaze: coat, ...at(x, z, turn, ground) },
  { shape: teapotLid, glaze: coat, ...at(x, z, turn, ground + teapotLidRise) },
];

const stackAt = (x: number, z: number, coats: readonly Glaze[]): SetPiece[] =>
  coats.map((coat, index) => ({
    shape: plate,
    glaze: coat,
    // Stacked by hand: a millimetre off here and there.
    ...at(x + 1.4 * Math.sin(index * 2.3), z + 1.2 * Math.cos(index * 3.1), index * 77, index * plateRise),
  }));

export const setShots: Readonly<Record<ShotName, SetShot>> = {
  mug: {
    pieces: [{ shape: mug, glaze: glazes.seaOverOat, ...at(0, 0, -28, clothMm) }],
    camera: { lookAt: [0, 41, 0], distanceMm: 790, focus: [0, 48, 42], elevation: 15, orientation: 1 },
    target: { x: -92, z: 34, turn: 14, scale: 0.56 },
  },
  jug: {
    pieces: [{ shape: jug, glaze: glazes.sea, ...at(4, 0, 22, boardMm) }],
    camera: { lookAt: [-2, 100, 0], distanceMm: 1120, focus: [0, 110, 58], elevation: 12, orientation: 6 },
    target: { x: -88, z: 62, turn: 12, scale: 0.6 },
  },
  bowl: {
    pieces: [{ shape: bowl, glaze: glazes.ink, ...at(0, 0, 0, clothMm) }],
    camera: { lookAt: [0, 30, 0], distanceMm: 950, focus: [0, 62, 74], elevation: 27, orientation: 1 },
    target: { x: -121, z: 48, turn: 14, scale: 0.7 },
  },
  'plate-stack': {
    pieces: [
      ...stackAt(0, 0, [glazes.oat, glazes.sea, glazes.oat, glazes.ochre, glazes.oat]),
      { shape: smallBowl, glaze: glazes.seaOverOat, ...at(3, -2, 0, 5 * plateRise) },
    ],
    camera: { lookAt: [0, 40, 0], distanceMm: 1070, focus: [0, 44, 104], elevation: 19, orientation: 1 },
    target: { x: -130, z: 116, turn: 12, scale: 0.62 },
  },
  teapot: {
    pieces: teapotAt(-4, 0, 14, glazes.ochre, boardMm),
    camera: { lookAt: [0, 66, 0], distanceMm: 1060, focus: [0, 72, 62], elevation: 15, orientation: 1 },
    target: { x: -136, z: 88, turn: 12, scale: 0.56 },
  },
  group: {
    pieces: [
      { shape: jug, glaze: glazes.sea, ...at(-75, -85, 30) },
      ...teapotAt(120, -30, 20, glazes.ochre, boardMm),
      { shape: mug, glaze: glazes.seaOverOat, ...at(-130, 75, -40, clothMm) },
      { shape: bowl, glaze: glazes.ink, ...at(6, 105, 0, clothMm) },
      ...stackAt(-228, -95, [glazes.oat, glazes.oat, glazes.ochre]),
    ],
    camera: { lookAt: [-34, 66, 0], distanceMm: 1650, focus: [0, 60, 60], elevation: 16, orientation: 1 },
    target: { x: -238, z: 152, turn: 10, scale: 0.9 },
  },
};
