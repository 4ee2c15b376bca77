import type { NoTarget } from '../../facts/index.ts';
import { findCandidates } from './candidates.ts';
import { type ColourLight, halved } from './colour-light.ts';
import { growGrids } from './grow-grid.ts';
import { applyHomography, fitHomography, type Homography, type Point } from './homography.ts';
import { type Placement, placeTarget } from './place-target.ts';

/** A target found, on the grid of the light it was found in. */
export interface FoundTarget {
  /** From patch columns 0 … 5 and rows 0 … 3 (centres at whole numbers) to the light's own grid. */
  readonly toLight: Homography;
  readonly confidence: number;
}

/** Largest raster that is looked at, px of its long edge; a target has to be 80 px wide there, a 25th of it. */
const longEdgeMax = 2000;

/** Smallest one. Between the two each is half the one before: a large target is told best where noise is averaged. */
const longEdgeMin = 300;

/** Mean CIEDE2000 left over that a target may have under odd light, and that one certainly has under even light. */
const colourErrorMax = 9;
const colourErrorSure = 4;

/** Distance of patches from the grid, share of its step. */
const gridErrorMax = 0.12;

/** Less than this is said to be unsure. */
const confidenceMin = 0.35;

/**
 * Looks for the target: regions of one colour, on a grid, whose colours are those published, in several sizes of the
 * frame. `storedMirrored`: whether the light is stored mirrored (orientations 2, 4, 5, 7).
 */
export function findTarget(light: ColourLight, storedMirrored: boolean): FoundTarget | NoTarget {
  const long = Math.max(light.widthPx, light.heightPx);
  const spots: Spot[] = [];
  let raster = light.reduced(Math.max(1, Math.ceil(long / longEdgeMax)));
  for (;;) {
    for (const grid of growGrids(findCandidates(raster))) {
      const placement = placeTarget(grid, raster, storedMirrored);
      if (placement === null) continue;
      const spot = spotOf(placement, raster.factor);
      if (spot !== null) keepBest(spots, spot);
    }
    if (Math.max(raster.widthPx, raster.heightPx) < 2 * longEdgeMin) return answer(spots);
    raster = halved(raster);
  }
}

/** A placement on the light's own grid. */
interface Spot extends FoundTarget {
  readonly placement: Placement;
  readonly middle: Point;
  readonly reach: number;
}

function spotOf(placement: Placement, factor: number): Spot | null {
  const confidence = confidenceOf(placement);
  if (confidence === 0) return null;
  const toLight = (at: Point): Point => {
    const { x, y } = applyHomography(placement.toPicture, at);
    return { x: (x + 0.5) * factor - 0.5, y: (y + 0.5) * factor - 0.5 };
  };
  const corners = [
    { x: 0, y: 0 },
    { x: 5, y: 0 },
    { x: 5, y: 3 },
    { x: 0, y: 3 },
  ].map((from) => ({ from, to: toLight(from) }));
  const fitted = fitHomography(corners, false);
  if (fitted === null) return null;
  const middle = toLight({ x: 2.5, y: 1.5 });
  const reach = Math.max(...corners.map(({ to }) => Math.hypot(to.x - middle.x, to.y - middle.y)));
  return { placement, toLight: fitted, confidence, middle, reach };
}

/** Of what lies in one place only the best is kept. */
function keepBest(spots: Spot[], spot: Spot): void {
  const same = spots.findIndex(
    ({ middle, reach }) =>
      Math.hypot(middle.x - spot.middle.x, middle.y - spot.middle.y) < 0.8 * Math.max(reach, spot.reach),
  );
  const other = spots[same];
  if (other === undefined) spots.push(spot);
  else if (other.confidence < spot.confidence) spots[same] = spot;
}

/** 0 where it is no target; 1 where two thirds of the patches were seen, on a grid, in the right colours. */
function confidenceOf({ colourError, gridError, seen }: Placement): number {
  const colours = (colourErrorMax - colourError) / (colourErrorMax - colourErrorSure);
  const lie = 1 - gridError / gridErrorMax;
  return clamp(colours) * clamp(1.25 * lie) * clamp(seen / 16);
}

function clamp(value: number): number {
  return Math.min(1, Math.max(0, value));
}

function answer(spots: readonly Spot[]): FoundTarget | NoTarget {
  const sure = spots.filter(({ confidence }) => confidence >= confidenceMin);
  const [first, second] = sure;
  if (second !== undefined) return 'several';
  if (first === undefined) return spots.length === 0 ? 'none' : 'unsure';
  if (first.placement.mirrored) return 'mirrored';
  if (first.placement.inside < 24) return 'cut-off';
  return { toLight: first.toLight, confidence: first.confidence };
}
