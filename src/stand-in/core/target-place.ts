import { chartColumns, chartPatches } from './chart-patches.ts';
import type { FramePurpose, ShotName } from './frame-plan.ts';
import type { FrameSize } from './frame-size.ts';
import type { Card } from './kernels/stage.ts';
import { lightEvAt } from './light-at-target.ts';
import { circleRadiusPx, project } from './projection.ts';
import { cameraFor } from './set-camera.ts';
import { panelsOf } from './set-lights.ts';
import { cardFor } from './set-target.ts';
import type { Vector } from './vector.ts';

export interface PatchPlace {
  /** 1 dark skin … 24 black. */
  readonly patch: number;
  readonly labD50: readonly [number, number, number];
  /** Corners on the sensor, pixels from the top left of the top left pixel, clockwise from the patch's own top left. */
  readonly cornersPx: readonly (readonly [number, number])[];
  /** Radius of the circle of confusion in its middle, pixels. */
  readonly circlePx: number;
  /**
   * EV of the light on its middle against all lights firing, straight and once off the paper; 0 where all fire. What
   * ware and cloth take or throw back is not in it: some tenths.
   */
  readonly lightEv: number;
}

/** Where each patch of the target lies on the sensor; none where the target is not in the picture. */
export function targetPatches(
  recipe: { readonly shot: ShotName; readonly purpose: FramePurpose },
  size: FrameSize,
  keyFires: boolean = true,
): PatchPlace[] {
  const card = cardFor(recipe.shot, recipe.purpose);
  if (card === null) return [];
  const camera = cameraFor(recipe.shot, recipe.purpose, size);
  return chartPatches.map(({ labD50 }, index) => {
    const u = ((index % chartColumns) - 2.5) * card.patchPitch;
    const v = (1.5 - Math.floor(index / chartColumns)) * card.patchPitch;
    const half = card.patchSide / 2;
    const corners = [
      [u - half, v + half],
      [u + half, v + half],
      [u + half, v - half],
      [u - half, v - half],
    ] as const;
    const middle = onCard(card, u, v);
    return {
      patch: index + 1,
      labD50,
      cornersPx: corners.map(([a, b]) => {
        const { x, y } = project(camera, size, onCard(card, a, b));
        return [x, y] as const;
      }),
      circlePx: circleRadiusPx(camera, project(camera, size, middle).depthMm),
      lightEv:
        recipe.purpose === 'chart' || keyFires ? 0 : lightEvAt(card, middle, panelsOf(false), panelsOf(true)),
    };
  });
}

function onCard(card: Card, u: number, v: number): Vector {
  const along = (k: number): number =>
    (card.centre[k] ?? 0) +
    u * (card.across[k] ?? 0) +
    v * (card.up[k] ?? 0) +
    card.halfThickness * (card.face[k] ?? 0);
  return [along(0), along(1), along(2)];
}
