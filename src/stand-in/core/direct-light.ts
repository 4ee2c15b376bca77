/** How much of the lights reaches a surface straight, with nothing in the way. */
import type { Panel } from './kernels/stage.ts';
import { dot, normalised, type Vector } from './vector.ts';

/** Per side of a panel; the midpoint rule is then good to a thousandth at the distances of a set. */
const finePieces = 24;

/**
 * Irradiance over pi, so that a perfect diffuser shows it as its radiance: each panel's radiance times both cosines over
 * the square of the distance, summed over its area.
 */
export function directLight(
  panels: readonly Panel[],
  at: Vector,
  normal: Vector,
  pieces: number = finePieces,
): number {
  return panels.reduce((sum, panel) => sum + lightOf(panel, at, normalised(normal), pieces), 0);
}

function lightOf(panel: Panel, at: Vector, normal: Vector, pieces: number): number {
  const area = 4 * Math.hypot(...panel.halfU) * Math.hypot(...panel.halfV);
  const shines: Vector = [panel.normal[0] ?? 0, panel.normal[1] ?? 0, panel.normal[2] ?? 0];
  let sum = 0;
  for (let i = 0; i < pieces; i++) {
    for (let j = 0; j < pieces; j++) {
      const u = ((i + 0.5) / pieces) * 2 - 1;
      const v = ((j + 0.5) / pieces) * 2 - 1;
      const to = [0, 1, 2].map(
        (k) => (panel.centre[k] ?? 0) + (panel.halfU[k] ?? 0) * u + (panel.halfV[k] ?? 0) * v - (at[k] ?? 0),
      );
      const way: Vector = [to[0] ?? 0, to[1] ?? 0, to[2] ?? 0];
      const square = dot(way, way);
      const here = Math.max(0, dot(normal, way));
      const there = Math.max(0, -dot(shines, way));
      sum += ((here * there) / (square * square)) * (1 - panel.hotspot * 0.5 * (u * u + v * v));
    }
  }
  return (sum * area * (panel.radiance[1] ?? 0)) / (pieces * pieces * Math.PI);
}
