import type { LightSourceName, Mosaic, Orientation } from '../../facts/index.ts';
import { type Rgb8, type Size, turnUpright, uprightSize } from '../../image/index.ts';
import { type HalfPlane, halfPlaneOf } from '../half-plane.ts';
import { logPlane, reducePlane } from '../kernels/reduce-plane.ts';
import { greenOfMosaic, type LightGrid, lightOfPicture } from '../light-grid.ts';
import { uprightShare } from '../sharp/upright-sharp.ts';
import type { Similarity } from './similarity.ts';

/**
 * What a place is read on: light of the upright picture, reduced, in stops. Small enough to be kept beside a reference
 * (3 MB for any frame), so that its file need not be read again.
 */
export interface PlacePlane extends Size {
  /** `data[row * widthPx + column]`: log2 of light, relative to its bright end, with a floor. */
  readonly data: Float32Array;
  readonly source: LightSourceName;
  /** Pixels of the full-size frame for one of the plane's. */
  readonly scalePx: number;
  /** Where the plane's left upper corner lies in the frame, px: what does not fill a block is left out. */
  readonly leftPx: number;
  readonly topPx: number;
  /** The full-size upright frame. */
  readonly fullWidthPx: number;
  readonly fullHeightPx: number;
}

/** Raised whenever planes are made otherwise: those of two editions are not laid on each other. */
export const planeEdition = 1;

/**
 * Along the longer edge. A tenth of a pixel of a 24-megapixel frame is then a sixtieth of a pixel, which can still be told
 * (measured in `register.test.ts`).
 */
const edgePxMax = 1000;
/** The bright end: so much of the plane is darker. */
const brightShare = 0.95;
/** Light below this share of the bright end (6.6 stops) is floor: there is noise, and texture that exposure hides. */
const floorShare = 0.01;

interface Origin {
  readonly source: LightSourceName;
  /** Pixels of the full-size frame for one of the light's. */
  readonly scalePx: number;
  /** Size of the full-size frame as stored. */
  readonly full: Size;
  readonly orientation: Orientation;
}

/** Of a raw, turned upright. The mosaic is only read. */
export function placeOfMosaic(mosaic: Mosaic): PlacePlane {
  return placeOfHalfPlane(halfPlaneOf(greenOfMosaic(mosaic)), mosaic, mosaic.orientation);
}

/** The same, where the half-size light is there already. `stored`: size of the mosaic. */
export function placeOfHalfPlane(plane: HalfPlane, stored: Size, orientation: Orientation): PlacePlane {
  return placeOf(plane, { source: 'raw', scalePx: 2, full: stored, orientation });
}

/** Of an upright picture (sRGB); `fullWidthPx`: width of the full-size frame where it is a preview of it. */
export function placeOfPicture(picture: Rgb8, fullWidthPx: number | null): PlacePlane {
  return placeOfLight(lightOfPicture(picture), fullWidthPx);
}

/** The same, where the picture's light is there already. */
export function placeOfLight(
  { values, widthPx, heightPx }: LightGrid,
  fullWidthPx: number | null,
): PlacePlane {
  const light = { data: Float32Array.from(values), widthPx, heightPx };
  const scalePx = fullWidthPx === null || widthPx === 0 ? 1 : fullWidthPx / widthPx;
  const full = { widthPx: widthPx * scalePx, heightPx: heightPx * scalePx };
  const source = fullWidthPx === null ? 'picture' : 'preview';
  return placeOf(light, { source, scalePx, full, orientation: 1 });
}

function placeOf(light: HalfPlane, { source, scalePx, full, orientation }: Origin): PlacePlane {
  const factor = Math.max(1, Math.ceil(Math.max(light.widthPx, light.heightPx) / edgePxMax));
  const size = {
    widthPx: Math.floor(light.widthPx / factor),
    heightPx: Math.floor(light.heightPx / factor),
  };
  const data = new Float32Array(size.widthPx * size.heightPx);
  reducePlane(light.data, light.widthPx, light.heightPx, factor, data);
  logPlane(data, Math.max(1e-6, floorShare * brightEnd(data)), data);
  const upright = turnUpright({ data, ...size, channels: 1 }, orientation);
  const step = scalePx * factor;
  const [nearX, nearY] = uprightShare([0, 0], orientation);
  const [farX, farY] = uprightShare(
    [share(size.widthPx * step, full.widthPx), share(size.heightPx * step, full.heightPx)],
    orientation,
  );
  const seen = uprightSize(full, orientation);
  return {
    data: upright.data,
    widthPx: upright.widthPx,
    heightPx: upright.heightPx,
    source,
    scalePx: step,
    leftPx: Math.min(nearX, farX) * seen.widthPx,
    topPx: Math.min(nearY, farY) * seen.heightPx,
    fullWidthPx: seen.widthPx,
    fullHeightPx: seen.heightPx,
  };
}

function share(part: number, whole: number): number {
  return whole > 0 ? part / whole : 0;
}

/** From places of the plane to pixels of the full-size frame, both with 0 at the middle of the first. */
export function planeToFrame({ scalePx, leftPx, topPx }: PlacePlane): Similarity {
  const half = (scalePx - 1) / 2;
  return { re: scalePx, im: 0, tx: leftPx + half, ty: topPx + half };
}

/** Every so-manieth value is enough to know the bright end by. */
const sampleMax = 20_000;

function brightEnd(light: Float32Array): number {
  const step = Math.max(1, Math.floor(light.length / sampleMax));
  const samples: number[] = [];
  for (let at = 0; at < light.length; at += step) {
    const value = light[at] ?? 0;
    if (Number.isFinite(value)) samples.push(value);
  }
  samples.sort((a, b) => a - b);
  return samples[Math.floor(brightShare * (samples.length - 1))] ?? 0;
}
