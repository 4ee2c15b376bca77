import type { Grid } from './kernels/grid.ts';
import { fillPaperLight } from './kernels/paper-light.ts';
import type { Stage } from './kernels/stage.ts';

/** The paper that matters: further out it is dim and out of every picture. */
const area = { left: -900, right: 900, front: -900, back: 1500, stepMm: 30 };

/** Light on the paper on a coarse grid over (x, way along it), three channels: what bounces and reflections see of it. */
export function makePaperLight(stage: Stage): Grid[] {
  const columns = (area.right - area.left) / area.stepMm + 1;
  const rows = (area.back - area.front) / area.stepMm + 1;
  const grids = [0, 1, 2].map(() => ({
    values: new Float32Array(columns * rows),
    columns,
    rows,
    left: area.left,
    bottom: area.front,
    perMm: 1 / area.stepMm,
  }));
  fillPaperLight(stage, grids);
  return grids;
}
