import {
  identityMatrix,
  linearRgbToRgb,
  type Matrix3,
  rgbSpaces,
  type Vector3,
} from '../../../colour/index.ts';
import type { RgbHalf } from '../../../image/index.ts';
import type { CompiledLook } from '../../../look/index.ts';

/** The tables of a look, as a painter takes them. */
export type Tables = Pick<CompiledLook, 'matrix' | 'curve' | 'table'>;

/** What is drawn of the scene, and how large. */
export interface Placed {
  /** The canvas, its own pixels. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** From a place in the canvas (shares of it from its left top, and 1) to one in the scene, divided by the third. */
  readonly toScene: Matrix3;
}

export interface Drawing {
  readonly placed: Placed;
  /** Left of this share of the canvas the other tables are shown; 0: nowhere. */
  readonly edge: number;
}

/** Draws a scene with the tables of a look. Holds no truth: what it was given can be given again. */
export interface Painter {
  /** `webgl`: by shaders. `plain`: in a worker, onto a canvas of pixels. */
  readonly kind: 'webgl' | 'plain';
  setScene(scene: RgbHalf): void;
  /** `now` is what is worked on; `before` is shown left of the edge. */
  setTables(side: 'now' | 'before', tables: Tables): void;
  /** Draws; for `plain` it comes a little later. */
  draw(drawing: Drawing): void;
  close(): void;
}

/** All of the scene, pixel for pixel. */
export function wholeScene({ widthPx, heightPx }: Pick<RgbHalf, 'widthPx' | 'heightPx'>): Placed {
  return { widthPx, heightPx, toScene: identityMatrix };
}

/** Pictures are shown in sRGB: what renderings are made in, and any screen has. */
export const outputMatrix: Matrix3 = linearRgbToRgb(rgbSpaces.rec2020, rgbSpaces.srgb);

const [, , , red, green, blue] = rgbSpaces.srgb.toXyz;
export const outputLuminance: Vector3 = [red, green, blue];
