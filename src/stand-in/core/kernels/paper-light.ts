import type { Grid } from './grid.ts';
import { addPanelLight, type SurfacePoint } from './panel-light.ts';
import type { Backdrop, Stage } from './stage.ts';
import { paperNormal } from './trace.ts';

const point: SurfacePoint = { x: 0, y: 0, z: 0, nx: 0, ny: 1, nz: 0 };
const normal = new Float64Array(3);
const light = new Float64Array(3);

/** Fills three grids of one shape over (x, way along the paper) with the panels' light and a little from the room. */
export function fillPaperLight(stage: Stage, grids: readonly Grid[]): void {
  const { columns, rows, left, bottom, perMm } = grids[0];
  for (let row = 0; row < rows; row++) {
    placeOnPaper(stage.backdrop, bottom + row / perMm, point);
    for (let column = 0; column < columns; column++) {
      point.x = left + column / perMm;
      light.fill(0);
      addPanelLight(stage, point, 0.5, 0.5, light);
      for (let k = 0; k < 3; k++) grids[k].values[row * columns + column] = light[k] + stage.roomLight[k];
    }
  }
}

/** The point and normal at a way along the paper; the inverse of `wayAlongPaper`. */
function placeOnPaper(backdrop: Backdrop, way: number, at: SurfacePoint): void {
  const { bendZ, bendRadius } = backdrop;
  const past = way + bendZ;
  const quarter = (bendRadius * Math.PI) / 2;
  if (past <= 0) {
    at.y = 0;
    at.z = -way;
  } else if (past >= quarter) {
    at.y = bendRadius + past - quarter;
    at.z = bendZ - bendRadius;
  } else {
    at.y = bendRadius * (1 - Math.cos(past / bendRadius));
    at.z = bendZ - bendRadius * Math.sin(past / bendRadius);
  }
  paperNormal(backdrop, at.y, at.z, normal);
  at.ny = normal[1];
  at.nz = normal[2];
}
