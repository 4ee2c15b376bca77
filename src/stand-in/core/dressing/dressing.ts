/**
 * What lies about on the set besides the ware: things no reading has a model of. None of it stands before the ware or
 * on the target.
 */
import type { ShotName } from '../frame-plan.ts';
import type { Stuff } from '../kernels/stage.ts';
import type { LimbShape } from '../ware/shape.ts';
import { cable, cableRise, spoon, spoonRise, twig, twigRise } from './drawings.ts';
import type { LaidPlace } from './flat-shape.ts';
import { blackCable, brushedSteel, linen, oiledOak, oliveLeaf, slateLinen, stripedPrint } from './stuffs.ts';

export interface Dressing {
  readonly slabs: readonly SlabPlace[];
  readonly things: readonly LaidThing[];
  /** Crumbs and dust strewn about a place. */
  readonly crumbs: {
    readonly x: number;
    readonly z: number;
    readonly y: number;
    readonly count: number;
  } | null;
}

/** A ridge across a cloth: a point and a direction, how high and how wide, and how far along it reaches; mm. */
export interface Fold {
  readonly x: number;
  readonly z: number;
  readonly cos: number;
  readonly sin: number;
  readonly height: number;
  readonly width: number;
  readonly length: number;
}

export interface SlabPlace {
  readonly x: number;
  readonly z: number;
  /** Degrees about the vertical. */
  readonly turn: number;
  readonly halfX: number;
  readonly halfZ: number;
  readonly height: number;
  readonly corner: number;
  readonly edge: number;
  readonly folds: readonly Fold[];
  readonly stuff: Stuff;
}

export interface LaidThing {
  readonly drawing: readonly LimbShape[];
  readonly place: LaidPlace;
  readonly stuff: Stuff;
}

/** Tops of what ware may stand on, mm. */
export const clothMm = 1.2;
export const boardMm = 15;

const fold = (
  x: number,
  z: number,
  degrees: number,
  height: number,
  width: number,
  length: number,
): Fold => ({
  x,
  z,
  cos: Math.cos((degrees * Math.PI) / 180),
  sin: Math.sin((degrees * Math.PI) / 180),
  height,
  width,
  length,
});

const cloth = (
  [x, z, turn]: readonly [number, number, number],
  [halfX, halfZ]: readonly [number, number],
  stuff: Stuff,
  folds: readonly Fold[] = [],
): SlabPlace => ({ x, z, turn, halfX, halfZ, height: clothMm, corner: 3, edge: 0.5, folds, stuff });

const board = (
  [x, z, turn]: readonly [number, number, number],
  [halfX, halfZ]: readonly [number, number],
): SlabPlace => ({
  x,
  z,
  turn,
  halfX,
  halfZ,
  height: boardMm,
  corner: 16,
  edge: 3.2,
  folds: [],
  stuff: oiledOak,
});

const print = (
  [x, z, turn]: readonly [number, number, number],
  [halfX, halfZ]: readonly [number, number],
): SlabPlace => ({
  x,
  z,
  turn,
  halfX,
  halfZ,
  height: 0.4,
  corner: 0.5,
  edge: 0.1,
  folds: [],
  stuff: stripedPrint,
});

const spoonAt = (x: number, z: number, turn: number, ground = 0): LaidThing => ({
  drawing: spoon,
  place: { x, z, turn, y: ground + spoonRise },
  stuff: brushedSteel,
});
const twigAt = (x: number, z: number, turn: number, ground = 0): LaidThing => ({
  drawing: twig,
  place: { x, z, turn, y: ground + twigRise },
  stuff: oliveLeaf,
});
const cableAt = (x: number, z: number, turn: number): LaidThing => ({
  drawing: cable,
  place: { x, z, turn, y: cableRise },
  stuff: blackCable,
});

export const dressings: Readonly<Record<ShotName, Dressing>> = {
  mug: {
    slabs: [
      cloth([52, -18, 9], [112, 78], linen, [fold(78, 8, 62, 7, 9, 70), fold(52, 34, 48, 4, 7, 56)]),
      print([-128, -190, -24], [64, 46]),
    ],
    things: [spoonAt(84, 88, 20), twigAt(96, -150, 152)],
    crumbs: { x: 44, z: 76, y: 0, count: 9 },
  },
  jug: {
    slabs: [board([18, -34, -7], [106, 78])],
    things: [twigAt(66, 112, -14), cableAt(-30, -210, 8)],
    crumbs: { x: -22, z: 112, y: 0, count: 6 },
  },
  bowl: {
    slabs: [
      cloth([46, 0, -10], [150, 108], slateLinen, [
        fold(104, -36, 66, 8, 10, 66),
        fold(76, -50, 52, 5, 8, 52),
      ]),
    ],
    things: [spoonAt(118, 84, 20, clothMm), twigAt(-120, -170, 20)],
    crumbs: { x: 70, z: 106, y: clothMm, count: 10 },
  },
  'plate-stack': {
    slabs: [print([-182, -200, 16], [92, 60])],
    things: [spoonAt(152, 82, 52), twigAt(120, -210, 160), cableAt(-60, -300, -6)],
    crumbs: { x: 96, z: 138, y: 0, count: 10 },
  },
  teapot: {
    slabs: [
      board([22, -28, 4], [152, 92]),
      cloth([-190, -150, 24], [110, 60], linen, [fold(10, 0, 10, 7, 10, 90)]),
    ],
    things: [twigAt(70, 104, 12)],
    crumbs: { x: 104, z: 34, y: boardMm, count: 9 },
  },
  group: {
    slabs: [
      cloth([-66, 92, 6], [165, 88], linen, [fold(-118, 20, 76, 7, 10, 74), fold(112, 40, 64, 7, 10, 60)]),
      board([128, -40, -8], [150, 100]),
      print([-330, -260, 20], [110, 74]),
    ],
    things: [spoonAt(30, 204, 12), twigAt(186, 150, -18), cableAt(60, -330, 4)],
    crumbs: { x: 84, z: 176, y: clothMm, count: 12 },
  },
};
