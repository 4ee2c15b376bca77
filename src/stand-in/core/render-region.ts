import { chartColumns, chartPatches, chartRows } from './chart-patches.ts';
import type { FramePurpose, ShotName } from './frame-plan.ts';
import type { FrameSize } from './frame-size.ts';
import { labToScene } from './lab-to-scene.ts';
import { sceneCode } from './scene-code.ts';

/** A rectangle of the rendering, margin included, pixels. */
export interface Region {
  readonly left: number;
  readonly top: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

export interface SetScene {
  readonly shot: ShotName;
  readonly purpose: FramePurpose;
  readonly size: FrameSize;
}

export function prepareScene(shot: ShotName, purpose: FramePurpose, size: FrameSize): SetScene {
  return { shot, purpose, size };
}

export function renderRegion(scene: SetScene, region: Region): Uint16Array<ArrayBuffer> {
  const codes = new Uint16Array(region.widthPx * region.heightPx * 3);
  const colours = chartPatches.map((patch) => labToScene(patch.labD50).map(sceneCode));
  const { widthPx, heightPx, marginPx } = scene.size;
  for (let row = 0; row < region.heightPx; row++) {
    for (let column = 0; column < region.widthPx; column++) {
      const x = Math.floor(((column + region.left - marginPx) / widthPx) * chartColumns);
      const y = Math.floor(((row + region.top - marginPx) / heightPx) * chartRows);
      const colour = colours[y * chartColumns + x] ?? [30_000, 30_000, 30_000];
      codes.set(colour, (row * region.widthPx + column) * 3);
    }
  }
  return codes;
}
