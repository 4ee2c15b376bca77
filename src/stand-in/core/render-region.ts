/** Renders any rectangle of a shot; rectangles put together give the same picture as one. */
import { kernelRadii, radiusStepPx } from './circle-of-confusion.ts';
import type { FramePurpose, ShotName } from './frame-plan.ts';
import type { FrameSize } from './frame-size.ts';
import { fillRadii } from './kernels/circle-radii.ts';
import { blurDepth, blurTilePx } from './kernels/depth-blur.ts';
import { encodeScene } from './kernels/encode-scene.ts';
import { type RowsOutput, renderRows } from './kernels/render-rows.ts';
import type { Camera, Stage } from './kernels/stage.ts';
import { outlineSpread, spreadReach } from './outline-spread.ts';
import { sceneValueMax } from './scene-code.ts';
import { lensSigmaPx } from './set-facts.ts';
import { rightSet, type SetVariant } from './set-variant.ts';
import { buildStage } from './virtual-studio.ts';

/** A rectangle of the rendering, margin included, pixels. */
export interface Region {
  readonly left: number;
  readonly top: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** A shot ready to be rendered. Keep it between regions: making it costs as much as many rows. */
export interface SetScene {
  readonly shot: ShotName;
  readonly purpose: FramePurpose;
  readonly size: FrameSize;
  readonly variant: SetVariant;
  readonly stage: Stage;
  readonly spread: Float64Array;
  /** Blur kernels for pixels of many rays and of one, see `circle-of-confusion.ts`. */
  readonly ofMany: Float32Array;
  readonly ofOne: Float32Array;
}

export function prepareScene(
  shot: ShotName,
  purpose: FramePurpose,
  size: FrameSize,
  variant: SetVariant = rightSet,
): SetScene {
  return {
    shot,
    purpose,
    size,
    variant,
    stage: buildStage(shot, purpose, size, variant),
    spread: outlineSpread(lensSigmaPx),
    ofMany: kernelRadii(radiusMaxPx(size), 0, 0),
    ofOne: kernelRadii(radiusMaxPx(size), lensSigmaPx ** 2 + 1 / 12, softFromPx),
  };
}

/** Cells of the soft light: half a millimetre or so on the ware, but never so fine that nothing is saved. */
const cellsAcross = 600;
const cellPxMin = 4;

/**
 * Circles of confusion end at this share of the width: what lies so far out of focus is soft enough, and the circle is
 * what bands of a rendering overlap by.
 */
export const radiusShareMax = 0.006;

export function radiusMaxPx(size: FrameSize): number {
  return Math.max(2, Math.round(size.widthPx * radiusShareMax));
}

/** A circle of this radius hides the lens's own blur and the pixel's, pixels. */
export const softFromPx = 1.5;

/** RGB interleaved codes (`scene-code.ts`) of the region, linear Rec.2020, light D65. */
export function renderRegion(scene: SetScene, region: Region): Uint16Array<ArrayBuffer> {
  const { stage, size, ofMany, ofOne } = scene;
  // What reaches into the region, and for a tile that begins outside it as much again as the tile is wide.
  const apron = radiusMaxPx(size) + blurTilePx;
  const widthPx = region.widthPx + 2 * apron;
  const heightPx = region.heightPx + 2 * apron;
  const seen = emptyRows(widthPx * heightPx);
  const farRadiusPx = farRadius(stage.camera);
  renderRows(
    {
      stage,
      left: region.left - apron,
      top: region.top - apron,
      widthPx,
      heightPx,
      cellPx: Math.max(cellPxMin, Math.round(size.widthPx / cellsAcross)),
      spread: scene.spread,
      spreadReach: spreadReach(lensSigmaPx),
      farRadiusPx,
      softFromPx,
    },
    seen,
  );
  const radius = new Float32Array(widthPx * heightPx);
  fillRadii(
    {
      ...seen,
      focusMm: stage.camera.lens.focusMm,
      farRadiusPx,
      ofMany,
      ofOne,
      stepPx: radiusStepPx,
    },
    radius,
  );
  const linear = new Float32Array(region.widthPx * region.heightPx * 3);
  blurDepth(
    {
      ...seen,
      radius,
      widthPx,
      heightPx,
      left: region.left,
      top: region.top,
      outWidthPx: region.widthPx,
      outHeightPx: region.heightPx,
      apronPx: apron,
      radiusMaxPx: radiusMaxPx(size),
    },
    linear,
  );
  const codes = new Uint16Array(linear.length);
  encodeScene(linear, sceneValueMax, codes);
  return codes;
}

/** The circle's radius at an infinite distance, pixels: half of A f / (S - f) on the sensor. */
function farRadius({ lens, pixelMm }: Camera): number {
  return (lens.apertureMm * lens.focalMm) / (lens.focusMm - lens.focalMm) / 2 / pixelMm;
}

function emptyRows(pixels: number): RowsOutput {
  return {
    linear: new Float32Array(pixels * 3),
    depth: new Float32Array(pixels),
    spread: new Uint8Array(pixels),
    detail: new Uint8Array(pixels),
  };
}
