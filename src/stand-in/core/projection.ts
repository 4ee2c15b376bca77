/** From points of the set to pixels of the frame. */
import { circleMm } from './circle-of-confusion.ts';
import type { FrameSize } from './frame-size.ts';
import type { Camera } from './kernels/stage.ts';

export interface Projected {
  /** Pixels right and down of the top left corner of the frame's top left pixel, as the sensor lies. */
  readonly x: number;
  readonly y: number;
  /** Along the lens's axis, mm. */
  readonly depthMm: number;
  /** Millimetres in a plane at that depth that one pixel sees. */
  readonly mmPerPx: number;
}

export function project(camera: Camera, size: FrameSize, at: readonly number[]): Projected {
  const { forward, right, down, pixelMm } = camera;
  const imageMm = Math.hypot(...forward);
  const away = at.map((value, k) => value - (camera.eye[k] ?? 0));
  const along = (axis: Float64Array): number =>
    away.reduce((sum, value, k) => sum + value * (axis[k] ?? 0), 0) / Math.hypot(...axis);
  const depthMm = along(forward);
  const mmPerPx = (pixelMm * depthMm) / imageMm;
  return {
    x: camera.centreX - size.marginPx + along(right) / mmPerPx,
    y: camera.centreY - size.marginPx + along(down) / mmPerPx,
    depthMm,
    mmPerPx,
  };
}

/** Radius of the circle of confusion, pixels. */
export function circleRadiusPx({ lens, pixelMm }: Camera, depthMm: number): number {
  return circleMm(lens, depthMm) / 2 / pixelMm;
}
