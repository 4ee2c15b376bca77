/** What stands on the set for each shot, and where the camera stands. */
import type { Orientation } from '../../facts/index.ts';
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

const teapotAt = (x: number, z: number, turn: number, pot: Glaze, lid: Glaze): SetPiece[] => [
  { shape: teapot, glaze: pot, ...at(x, z, turn) },
  { shape: teapotLid, glaze: lid, ...at(x, z, turn, teapotLidRise) },
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
    pieces: [{ shape: mug, glaze: glazes.seaOverOat, ...at(0, 0, -28) }],
    camera: { lookAt: [0, 41, 0], distanceMm: 700, elevation: 15, orientation: 1 },
    target: { x: -92, z: 34, turn: 14, scale: 0.56 },
  },
  jug: {
    pieces: [{ shape: jug, glaze: glazes.sea, ...at(4, 0, 22) }],
    camera: { lookAt: [-2, 92, 0], distanceMm: 1000, elevation: 12, orientation: 6 },
    target: { x: -88, z: 62, turn: 12, scale: 0.6 },
  },
  bowl: {
    pieces: [{ shape: bowl, glaze: glazes.ink, ...at(0, 0, 0) }],
    camera: { lookAt: [0, 30, 0], distanceMm: 860, elevation: 27, orientation: 1 },
    target: { x: -121, z: 48, turn: 14, scale: 0.7 },
  },
  'plate-stack': {
    pieces: [
      ...stackAt(0, 0, [glazes.oat, glazes.sea, glazes.oat, glazes.ochre, glazes.oat]),
      { shape: smallBowl, glaze: glazes.seaOverOat, ...at(3, -2, 0, 5 * plateRise) },
    ],
    camera: { lookAt: [0, 40, 0], distanceMm: 980, elevation: 19, orientation: 1 },
    target: { x: -130, z: 116, turn: 12, scale: 0.62 },
  },
  teapot: {
    pieces: teapotAt(-4, 0, 14, glazes.ochre, glazes.ochre),
    camera: { lookAt: [0, 60, 0], distanceMm: 950, elevation: 15, orientation: 1 },
    target: { x: -136, z: 88, turn: 12, scale: 0.56 },
  },
  group: {
    pieces: [
      { shape: jug, glaze: glazes.sea, ...at(-75, -85, 30) },
      ...teapotAt(120, -30, 20, glazes.ochre, glazes.ochre),
      { shape: mug, glaze: glazes.seaOverOat, ...at(-130, 75, -40) },
      { shape: bowl, glaze: glazes.ink, ...at(6, 105, 0) },
      ...stackAt(-228, -95, [glazes.oat, glazes.oat, glazes.ochre]),
    ],
    camera: { lookAt: [-34, 66, 0], distanceMm: 1560, elevation: 16, orientation: 1 },
    target: { x: 182, z: 150, turn: -8, scale: 1 },
  },
};
