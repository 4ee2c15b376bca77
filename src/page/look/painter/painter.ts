import {
  identityMatrix,
  linearRgbToRgb,
  type Matrix3,
  rgbSpaces,
  type Vector3,
} from '../../../colour/index.ts';
import type { Region, RgbHalf, Size } from '../../../image/index.ts';
import { type CompiledLook, halfDiagonalPx } from '../../../look/index.ts';

/** The tables of a look, as a painter takes them. */
export interface Tables extends Pick<CompiledLook, 'matrix' | 'curve' | 'table'> {
  /** Stops added at the corners of the original. */
  readonly falloffEv: number;
}

/** What is drawn of the scene, and how large. */
export interface Placed {
  /** The canvas, its own pixels. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** From a place in the canvas (shares of it from its left top, and 1) to one in the scene, divided by the third. */
  readonly toScene: Matrix3;
  /** Where the original's middle lies, for falloff. */
  readonly middle: FromMiddle;
}

/** From a place in the scene, shares of it, to its distance from the original's middle in half diagonals, across and down. */
export interface FromMiddle {
  readonly scaleX: number;
  readonly scaleY: number;
  readonly x: number;
  readonly y: number;
}

/** Of a scene that is a part of the original, pixels at full size. */
export function fromMiddle(full: Size, part: Region): FromMiddle {
  const unit = halfDiagonalPx(full);
  return {
    scaleX: part.widthPx / unit,
    scaleY: part.heightPx / unit,
    x: (full.widthPx / 2 - part.leftPx) / unit,
    y: (full.heightPx / 2 - part.topPx) / unit,
  };
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
  const size = { widthPx, heightPx };
  return { ...size, toScene: identityMatrix, middle: fromMiddle(size, { leftPx: 0, topPx: 0, ...size }) };
}

/** Pictures are shown in sRGB: what renderings are made in, and any screen has. */
export const outputMatrix: Matrix3 = linearRgbToRgb(rgbSpaces.rec2020, rgbSpaces.srgb);

const [, , , red, green, blue] = rgbSpaces.srgb.toXyz;
export const outputLuminance: Vector3 = [red, green, blue];
