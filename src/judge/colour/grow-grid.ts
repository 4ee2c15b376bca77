import type { Candidate } from './candidates.ts';
import {
  applyHomography,
  fitHomography,
  type Homography,
  homographyError,
  type Pair,
  type Point,
} from './homography.ts';

/** Candidates that lie on one grid, with the homography from steps of the grid to pixels. */
export interface Grid {
  readonly cells: readonly Pair[];
  readonly toPicture: Homography;
  /** Root mean square distance of the candidates from the grid, share of its step. */
  readonly error: number;
  /** Length of a step about its middle, px. */
  readonly stepPx: number;
}

/** Fewer patches than this do not carry a grid. */
const cellsMin = 8;

/** How far from a patch its neighbour may lie, in sides: gaps from nothing to half a side and more, where edges are soft. */
const stepMin = 0.95;
const stepMax = 1.75;

/** Grids a candidate is looked for in: a target before tiles of its size is on theirs too, when one begins with them. */
const triesMax = 3;

/** A target reaches no farther from any of its patches, steps. */
const reachSteps = 5;

/** Every grid that candidates lie on, a few times at most. */
export function growGrids(candidates: readonly Candidate[]): readonly Grid[] {
  const near = new Neighbourhood(candidates);
  const tries = new Map<Candidate, number>();
  const grids: Grid[] = [];
  for (const seed of candidates) {
    if ((tries.get(seed) ?? 0) >= triesMax) continue;
    for (const [first, second] of corners(seed, near)) {
      const cells = spread(seed, first, second, near);
      if (cells.length < cellsMin) continue;
      const grid = settle(cells, near);
      if (grid === null) continue;
      grids.push(grid);
      // With all that lies in the same places: several passes see the same patches.
      for (const { to } of grid.cells) {
        for (const same of near.within(to, 0.3 * grid.stepPx)) tries.set(same, (tries.get(same) ?? 0) + 1);
      }
      break;
    }
  }
  return grids;
}

interface Cell {
  readonly i: number;
  readonly j: number;
  readonly candidate: Candidate;
  readonly alongI: Point;
  readonly alongJ: Point;
}

/** Pairs of neighbours that lie at right angles as seen on the seed's own square. */
function corners(seed: Candidate, near: Neighbourhood): readonly (readonly [Point, Point])[] {
  const [a, b, c, d] = seed.whiten;
  const neighbours = near
    .within(seed, 2.6 * Math.sqrt(seed.pixels))
    .filter((other) => other !== seed && isSimilar(seed, other))
    .map((other) => {
      const step = { x: other.x - seed.x, y: other.y - seed.y };
      const white = { x: a * step.x + b * step.y, y: c * step.x + d * step.y };
      return { step, white, length: Math.hypot(white.x, white.y) };
    })
    .filter(({ length }) => length > stepMin && length < stepMax)
    .sort((one, other) => one.length - other.length)
    .slice(0, 8);
  const pairs: (readonly [Point, Point])[] = [];
  neighbours.forEach((one, index) => {
    for (const other of neighbours.slice(index + 1)) {
      const cosine =
        (one.white.x * other.white.x + one.white.y * other.white.y) / (one.length * other.length);
      const ratio = one.length / other.length;
      if (Math.abs(cosine) < 0.3 && ratio > 0.72 && ratio < 1.39) pairs.push([one.step, other.step]);
    }
  });
  return pairs;
}

function isSimilar(one: Candidate, other: Candidate): boolean {
  return other.pixels > 0.4 * one.pixels && other.pixels < 2.5 * one.pixels;
}

/** Cell by cell from the seed, each step as long as the last one of its direction: that follows a perspective. */
function spread(seed: Candidate, alongI: Point, alongJ: Point, near: Neighbourhood): readonly Cell[] {
  const cells: Cell[] = [{ i: 0, j: 0, candidate: seed, alongI, alongJ }];
  const taken = new Set<string>(['0,0']);
  const members = new Set<Candidate>([seed]);
  for (let next = 0; next < cells.length && cells.length < 200; next++) {
    const cell = cells[next];
    if (cell === undefined) break;
    for (const [di, dj] of sides) {
      const key = `${cell.i + di},${cell.j + dj}`;
      if (taken.has(key) || Math.max(Math.abs(cell.i + di), Math.abs(cell.j + dj)) > reachSteps) continue;
      const along = di === 0 ? cell.alongJ : cell.alongI;
      const sign = di + dj;
      const at = { x: cell.candidate.x + sign * along.x, y: cell.candidate.y + sign * along.y };
      const step = Math.hypot(along.x, along.y);
      const candidate = near.nearest(
        at,
        0.22 * step,
        (other) => !members.has(other) && isSimilar(seed, other),
      );
      if (candidate === null) continue;
      const measured = {
        x: sign * (candidate.x - cell.candidate.x),
        y: sign * (candidate.y - cell.candidate.y),
      };
      taken.add(key);
      members.add(candidate);
      cells.push({
        i: cell.i + di,
        j: cell.j + dj,
        candidate,
        alongI: di === 0 ? cell.alongI : measured,
        alongJ: di === 0 ? measured : cell.alongJ,
      });
    }
  }
  return cells;
}
const sides = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
] as const;

/** Fits the grid, looks again for candidates at every place within a target's reach of it, and fits once more. */
function settle(cells: readonly Cell[], near: Neighbourhood): Grid | null {
  let pairs: readonly Pair[] = cells.map(({ i, j, candidate }) => ({ from: { x: i, y: j }, to: candidate }));
  let fitted: Homography | null = null;
  for (let round = 0; round < 3; round++) {
    const { left, right, top, bottom } = extent(pairs);
    if (right - left < 1 || bottom - top < 1) return null;
    // Two rows say too little of a perspective.
    const affine = pairs.length < 10 || right - left < 2 || bottom - top < 2;
    const toPicture = fitHomography(pairs, affine);
    if (toPicture === null) return null;
    fitted = toPicture;
    if (round === 2) break;
    const again: Pair[] = [];
    for (let j = top - 2; j <= bottom + 2; j++) {
      for (let i = left - 2; i <= right + 2; i++) {
        const from = { x: i, y: j };
        const at = applyHomography(toPicture, from);
        const found = near.nearest(at, 0.16 * stepAt(toPicture, from), () => true);
        if (found !== null) again.push({ from, to: found });
      }
    }
    if (again.length < cellsMin) return null;
    pairs = again;
  }
  if (fitted === null) return null;
  const { left, right, top, bottom } = extent(pairs);
  const middle = { x: (left + right) / 2, y: (top + bottom) / 2 };
  const stepPx = stepAt(fitted, middle);
  return { cells: pairs, toPicture: fitted, error: homographyError(fitted, pairs) / stepPx, stepPx };
}

/** Length of the shorter step of a grid about one of its places, px. */
export function stepAt(toPicture: Homography, { x, y }: Point): number {
  const at = applyHomography(toPicture, { x, y });
  const across = applyHomography(toPicture, { x: x + 0.5, y });
  const down = applyHomography(toPicture, { x, y: y + 0.5 });
  return 2 * Math.min(Math.hypot(across.x - at.x, across.y - at.y), Math.hypot(down.x - at.x, down.y - at.y));
}

interface Extent {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** What places of a grid span. */
export function extent(pairs: readonly Pair[]): Extent {
  const xs = pairs.map(({ from }) => from.x);
  const ys = pairs.map(({ from }) => from.y);
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
}

/** Candidates by place. */
class Neighbourhood {
  private readonly boxes = new Map<number, Candidate[]>();

  constructor(candidates: readonly Candidate[]) {
    for (const candidate of candidates) {
      const key = boxKey(Math.floor(candidate.x / boxPx), Math.floor(candidate.y / boxPx));
      const box = this.boxes.get(key);
      if (box === undefined) this.boxes.set(key, [candidate]);
      else box.push(candidate);
    }
  }

  within({ x, y }: Point, radius: number): readonly Candidate[] {
    const found: Candidate[] = [];
    if (!Number.isFinite(x + y + radius)) return found;
    const reach = Math.min(radius, reachMax);
    for (let row = Math.floor((y - reach) / boxPx); row <= Math.floor((y + reach) / boxPx); row++) {
      for (
        let column = Math.floor((x - reach) / boxPx);
        column <= Math.floor((x + reach) / boxPx);
        column++
      ) {
        for (const each of this.boxes.get(boxKey(column, row)) ?? []) {
          if (Math.hypot(each.x - x, each.y - y) < reach) found.push(each);
        }
      }
    }
    return found;
  }

  nearest(at: Point, radius: number, suits: (candidate: Candidate) => boolean): Candidate | null {
    let best: Candidate | null = null;
    let least = Number.POSITIVE_INFINITY;
    for (const each of this.within(at, radius)) {
      const distance = Math.hypot(each.x - at.x, each.y - at.y);
      if (distance < least && suits(each)) {
        best = each;
        least = distance;
      }
    }
    return best;
  }
}

const boxPx = 24;
const reachMax = 2000;

function boxKey(column: number, row: number): number {
  return row * 65_536 + column;
}
