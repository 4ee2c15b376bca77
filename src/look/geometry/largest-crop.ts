import type { Region } from '../../image/index.ts';

export type Point = readonly [x: number, y: number];

/** Points at or below `distance` along the outward unit normal lie inside. */
interface Side {
  readonly nx: number;
  readonly ny: number;
  readonly distance: number;
}

/**
 * The largest rectangle of a shape (`across` to `down`, edges along the axes) inside a convex quadrilateral, times `share`,
 * as near to `wanted` as it can lie. Units are the corners'.
 *
 * A rectangle of half edges s a, s b about c lies inside where n · c + s (|nx| a + |ny| b) <= d for each side: the largest s
 * is a linear programme of three unknowns, whose optimum lies where three sides bind.
 */
export function largestCrop(
  corners: readonly [Point, Point, Point, Point],
  across: number,
  down: number,
  share: number,
  wanted: Point,
): Region {
  const sides = sidesOf(corners);
  const a = across / Math.max(across, down);
  const b = down / Math.max(across, down);
  const reach = ({ nx, ny }: Side): number => Math.abs(nx) * a + Math.abs(ny) * b;
  const s = share * largestScale(sides, reach);
  const [x, y] = nearest(
    sides.map((side) => ({ ...side, distance: side.distance - s * reach(side) })),
    wanted,
    1e-9 * s,
  );
  return { leftPx: x - s * a, topPx: y - s * b, widthPx: 2 * s * a, heightPx: 2 * s * b };
}

function sidesOf(corners: readonly Point[]): readonly Side[] {
  const middleX = corners.reduce((sum, [x]) => sum + x, 0) / corners.length;
  const middleY = corners.reduce((sum, [, y]) => sum + y, 0) / corners.length;
  return corners.map(([x, y], index) => {
    const [toX, toY] = corners[(index + 1) % corners.length] ?? [x, y];
    const length = Math.hypot(toX - x, toY - y);
    const nx = (toY - y) / length;
    const ny = (x - toX) / length;
    // Flipped pictures run round the other way.
    const sign = nx * (middleX - x) + ny * (middleY - y) > 0 ? -1 : 1;
    return { nx: sign * nx, ny: sign * ny, distance: sign * (nx * x + ny * y) };
  });
}

function largestScale(sides: readonly Side[], reach: (side: Side) => number): number {
  let best = 0;
  for (let left = 0; left < sides.length; left++) {
    const three = sides.filter((_, index) => index !== left);
    const found = bound(three, reach);
    if (found === null) continue;
    const [x, y, s] = found;
    const fits = sides.every(
      (side) => side.nx * x + side.ny * y + s * reach(side) <= side.distance + 1e-9 * s,
    );
    if (fits && s > best) best = s;
  }
  return best;
}

/** Where three sides bind (Cramer); null where they do not do so in one point. */
function bound(
  sides: readonly Side[],
  reach: (side: Side) => number,
): readonly [x: number, y: number, s: number] | null {
  const [p, q, r] = sides;
  if (p === undefined || q === undefined || r === undefined) return null;
  const solve = (of: (side: Side) => readonly [number, number, number]): number => {
    const [[a, b, c], [d, e, f], [g, h, i]] = [of(p), of(q), of(r)];
    return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  };
  const whole = solve((side) => [side.nx, side.ny, reach(side)]);
  if (Math.abs(whole) < 1e-12) return null;
  return [
    solve((side) => [side.distance, side.ny, reach(side)]) / whole,
    solve((side) => [side.nx, side.distance, reach(side)]) / whole,
    solve((side) => [side.nx, side.ny, side.distance]) / whole,
  ];
}

/** The point of a convex region that lies nearest to `wanted`: itself, its foot on one of the sides, or a corner. */
function nearest(sides: readonly Side[], [x, y]: Point, slack: number): Point {
  const feet = sides.map(({ nx, ny, distance }): Point => {
    const beyond = nx * x + ny * y - distance;
    return [x - beyond * nx, y - beyond * ny];
  });
  const meetings = sides.flatMap((p, index) =>
    sides.slice(index + 1).flatMap((q): Point[] => {
      const turn = p.nx * q.ny - p.ny * q.nx;
      if (Math.abs(turn) < 1e-12) return [];
      return [
        [(p.distance * q.ny - q.distance * p.ny) / turn, (p.nx * q.distance - q.nx * p.distance) / turn],
      ];
    }),
  );
  const furthestOut = ([px, py]: Point): number =>
    Math.max(...sides.map(({ nx, ny, distance }) => nx * px + ny * py - distance));
  const distance = ([px, py]: Point): number => Math.hypot(px - x, py - y);
  const found: readonly Point[] = [[x, y], ...feet, ...meetings];
  const inside = found.filter((point) => furthestOut(point) <= slack);
  // A region that is one point may be missed by a rounding: then the one that is least outside.
  if (inside.length === 0)
    return found.reduce((best, point) => (furthestOut(point) < furthestOut(best) ? point : best));
  return inside.reduce((best, point) => (distance(point) < distance(best) ? point : best));
}
