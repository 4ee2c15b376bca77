/** Renders any rectangle of a shot; rectangles put together give the same picture as one. */
import type { FramePurpose, ShotName } from './frame-plan.ts';
import type { FrameSize } from './frame-size.ts';
import { renderRows } from './kernels/render-rows.ts';
import type { Stage } from './kernels/stage.ts';
import { outlineSpread, spreadReach } from './outline-spread.ts';
import { sceneValueMax } from './scene-code.ts';
import { lensSigmaPx } from './set-facts.ts';
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
  readonly stage: Stage;
  readonly spread: Float64Array;
}

export function prepareScene(shot: ShotName, purpose: FramePurpose, size: FrameSize): SetScene {
  return { shot, purpose, size, stage: buildStage(shot, purpose, size), spread: outlineSpread(lensSigmaPx) };
}

/** Cells of the soft light: half a millimetre or so on the ware, but never so fine that nothing is saved. */
const cellsAcross = 600;
const cellPxMin = 4;

/** RGB interleaved codes (`scene-code.ts`) of the region, linear Rec.2020, light D65. */
export function renderRegion(scene: SetScene, region: Region): Uint16Array<ArrayBuffer> {
  const codes = new Uint16Array(region.widthPx * region.heightPx * 3);
  renderRows(
    {
      ...region,
      stage: scene.stage,
      cellPx: Math.max(cellPxMin, Math.round(scene.size.widthPx / cellsAcross)),
      spread: scene.spread,
      spreadReach: spreadReach(lensSigmaPx),
      sceneValueMax,
    },
    codes,
  );
  return codes;
}
