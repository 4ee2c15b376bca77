/** Colours of surfaces: glaze over clay, paper, the target's patches. */
import { cloud, speck } from './grain.ts';
import { sampleGrid } from './grid.ts';
import { profileRadiusAt, type Solid } from './solid.ts';
import type { Backdrop, Card, Glaze } from './stage.ts';

/** Reflectance into `out[0..2]`, share of the glassy coat (0 bare clay … 1) returned. Point in the solid's own frame. */
export function glazeAt(
  glaze: Glaze,
  solid: Solid,
  seed: number,
  x: number,
  y: number,
  z: number,
  out: Float64Array,
): number {
  const radius = profileRadiusAt(solid, x, y, z);
  const along = sampleGrid(solid.along, radius, y);
  const side = sampleGrid(solid.side, radius, y);
  const drift = cloud(seed, x * 0.045, y * 0.045, z * 0.045);
  const fine = cloud(seed + 7, x * 0.21, y * 0.21, z * 0.21);
  const inner = step(side, -0.6, 0.6);
  const shade = 1 + 0.07 * drift + 0.035 * fine;
  // A glaze that runs is thick where it stops: on a floor, above its lower edge, in streaks on the way there.
  const streak =
    cloud(seed + 5, x * 0.3, y * 0.035, z * 0.3) + 0.5 * cloud(seed + 6, x * 0.9, y * 0.12, z * 0.9);
  const stopped = 1 - step(y - glaze.glazeFrom, 0.5, 9 + 4 * drift);
  const thick = glaze.run * Math.max(0, Math.min(1, 0.25 + 0.6 * streak + 0.7 * stopped * inner));
  const dipped =
    glaze.dipFrom > 0 ? step(y + 1.6 * drift + 0.5 * fine, glaze.dipFrom - 0.5, glaze.dipFrom + 0.5) : 0;
  for (let k = 0; k < 3; k++) {
    const outside = glaze.outside[k] + (glaze.dip[k] - glaze.outside[k]) * dipped;
    out[k] = (glaze.inside[k] + (outside - glaze.inside[k]) * inner) * shade;
  }
  mix(out, glaze.pool, thick);
  // Glaze runs off a rim and leaves it thin.
  const thin =
    glaze.rim > 0 ? 0.85 * step(along + 0.004 * fine, 1 - 1.5 * glaze.rim, 1 - 0.3 * glaze.rim) : 0;
  mix(out, glaze.thin, thin);
  if (glaze.specks > 0) {
    mix(out, glaze.speck, 0.8 * speck(seed + 3, glaze.specks, 3, x, y, z));
    // Iron as fine as dust, which only a close look finds.
    mix(out, glaze.speck, 0.45 * speck(seed + 8, 0.35 * glaze.specks, 0.9, x, y, z));
  }
  const covered = step(y + 0.9 * drift + 0.3 * fine, glaze.glazeFrom - 0.25, glaze.glazeFrom + 0.25);
  const bare = (1 - covered) * inner;
  if (bare > 0) {
    const grog = cloud(seed + 10, x * 3.7, y * 3.7, z * 3.7);
    const clay = 1 + 0.1 * fine + 0.08 * cloud(seed + 9, x * 1.3, y * 1.3, z * 1.3) + 0.1 * grog;
    for (let k = 0; k < 3; k++) out[k] += (glaze.clay[k] * clay - out[k]) * bare;
  }
  return 1 - bare;
}

/** Reflectance of the paper with its fibres. */
export function paperAt(backdrop: Backdrop, seed: number, x: number, way: number, out: Float64Array): void {
  const fibre = 0.006 * cloud(seed, x * 1.7, way * 1.1, 0) + 0.004 * cloud(seed, x * 0.35, way * 0.5, 7);
  for (let k = 0; k < 3; k++) out[k] = backdrop.albedo[k] * (1 + fibre);
}

/** Reflectance of the target at a point in space on it. */
export function cardAt(card: Card, x: number, y: number, z: number, out: Float64Array): void {
  const wx = x - card.centre[0];
  const wy = y - card.centre[1];
  const wz = z - card.centre[2];
  const u = wx * card.across[0] + wy * card.across[1] + wz * card.across[2];
  const v = wx * card.up[0] + wy * card.up[1] + wz * card.up[2];
  const depth = wx * card.face[0] + wy * card.face[1] + wz * card.face[2];
  const column = Math.floor(u / card.patchPitch) + 3;
  const row = 1 - Math.floor(v / card.patchPitch);
  const inColumn = Math.abs(u - (column - 2.5) * card.patchPitch) < card.patchSide / 2;
  const inRow = Math.abs(v - (1.5 - row) * card.patchPitch) < card.patchSide / 2;
  const onPatch = inColumn && inRow && column >= 0 && column < 6 && row >= 0 && row < 4;
  const onFace = depth > card.halfThickness - 0.05;
  const from = onPatch && onFace ? (row * 6 + column) * 3 : -1;
  for (let k = 0; k < 3; k++) out[k] = from >= 0 ? card.patches[from + k] : card.border[k];
}

function mix(out: Float64Array, towards: Float64Array, share: number): void {
  for (let k = 0; k < 3; k++) out[k] += (towards[k] - out[k]) * share;
}

function step(x: number, from: number, to: number): number {
  const t = Math.min(1, Math.max(0, (x - from) / (to - from)));
  return t * t * (3 - 2 * t);
}
