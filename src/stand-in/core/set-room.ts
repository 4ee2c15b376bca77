/** The paper and the room about it. */
import type { Backdrop } from './kernels/stage.ts';
import { labToScene } from './lab-to-scene.ts';

export const backdrop: Backdrop = {
  bendZ: -520,
  bendRadius: 420,
  frontMm: 260,
  sideMm: 620,
  fadeMm: 480,
  albedo: Float64Array.from(labToScene([86.5, 0.6, 3.4])),
};

/** Radiance of what is neither lit nor seen: the ceiling; walls and floor are darker. */
export const roomLight: readonly [number, number, number] = [0.04, 0.04, 0.042];
