import { chartColumns, chartPatches } from './chart-patches.ts';
import type { FramePurpose, ShotName } from './frame-plan.ts';
import type { FrameSize } from './frame-size.ts';
import type { PatchTruth } from './frame-truth.ts';
import type { Camera, Card } from './kernels/stage.ts';
import { targetView } from './virtual-studio.ts';

/** Where each patch of the target lies on the sensor, frame coordinates; none where the target is not in the picture. */
export function targetPatches(
  recipe: { readonly shot: ShotName; readonly purpose: FramePurpose },
  size: FrameSize,
): PatchTruth[] {
  const { card, camera } = targetView(recipe.shot, recipe.purpose, size);
  if (card === null) return [];
  return chartPatches.map(({ labD50 }, index) => ({
    patch: index + 1,
    labD50,
    cornersPx: patchCorners(card, camera, index).map(
      ([x, y]) => [x - size.marginPx, y - size.marginPx] as const,
    ),
  }));
}

function patchCorners(card: Card, camera: Camera, index: number): (readonly [number, number])[] {
  const u = ((index % chartColumns) - 2.5) * card.patchPitch;
  const v = (1.5 - Math.floor(index / chartColumns)) * card.patchPitch;
  const half = card.patchSide / 2;
  const corners = [
    [u - half, v + half],
    [u + half, v + half],
    [u + half, v - half],
    [u - half, v - half],
  ] as const;
  return corners.map(([a, b]) => project(camera, onCard(card, a, b)));
}

function onCard(card: Card, u: number, v: number): number[] {
  return [0, 1, 2].map(
    (k) =>
      (card.centre[k] ?? 0) +
      u * (card.across[k] ?? 0) +
      v * (card.up[k] ?? 0) +
      card.halfThickness * (card.face[k] ?? 0),
  );
}

/** Pixels of the rendering where a point in space is seen. */
function project(camera: Camera, at: readonly number[]): readonly [number, number] {
  const dot = (a: Float64Array, b: readonly number[]): number =>
    b.reduce((sum, value, k) => sum + value * (a[k] ?? 0), 0);
  const square = (a: Float64Array): number => a.reduce((sum, value) => sum + value * value, 0);
  const away = at.map((value, k) => value - (camera.eye[k] ?? 0));
  const depth = dot(camera.forward, away) / square(camera.forward);
  return [
    camera.centreX + dot(camera.right, away) / square(camera.right) / depth,
    camera.centreY + dot(camera.down, away) / square(camera.down) / depth,
  ];
}
