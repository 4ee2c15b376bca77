import type { BlurKind } from '../../facts/index.ts';
import { deniedBelow, deniedShare, movedPx, risePerMovedPx } from './moved-edge.ts';
import type { EdgeReading } from './read-edge.ts';

/** Fewer edges across a movement than this show nothing of it. */
export const shownBy = 2;

/**
 * What edges at one spot say to a movement that those of the whole picture show: a camera that shakes moves everything, but
 * things at other depths look moved where nothing was. `shown`: they are as wide across it, or aslant just as wide as it
 * leaves them; `denied`: they are sharp across it, or most that lie aslant are far sharper than it would leave them;
 * `silent`: none lies across it. `stillSquare`: as `readBlur` tells it.
 */
export function movementAt(
  edges: readonly EdgeReading[],
  blur: BlurKind,
  stillSquare: number,
): 'shown' | 'denied' | 'silent' {
  const moved = movedAs(blur, stillSquare);
  const { way, lengthPx } = moved;
  const across = acrossMovement(edges, blur);
  const wide = across.filter(
    ({ angle, widthPx }) =>
      widthPx ** 2 > deniedBelow * (risePerMovedPx * lengthPx * Math.cos(angle - way)) ** 2,
  );
  const sharp = across.length - wide.length;
  if (sharp > Math.max(1, deniedShare * across.length)) return 'denied';
  if (across.length < shownBy && isDeniedAslant(edges, moved)) return 'denied';
  if (wide.length >= shownBy && wide.length > sharp) return 'shown';
  return across.length < shownBy && isShownAslant(edges, moved) ? 'shown' : 'silent';
}

/** Widened so many times an edge shows a movement, whichever way it lies. */
const widenedMin = 2;
/** Edges aslant that are to be as wide as the movement leaves them, and within which share of its length. */
export const aslantMin = 3;
const aslantFits = 0.25;

interface Moved {
  /** Radians from x towards y. */
  readonly way: number;
  readonly lengthPx: number;
  readonly stillSquare: number;
}

export function movedAs({ directionDegrees, lengthPx }: BlurKind, stillSquare: number): Moved {
  return { way: ((directionDegrees ?? 0) * Math.PI) / 180, lengthPx: lengthPx ?? 0, stillSquare };
}

/** Edges that the movement widens so much that it is seen in them, and those of them that are as wide as it leaves them. */
export function widenedBy(
  edges: readonly EdgeReading[],
  { way, lengthPx, stillSquare }: Moved,
): { readonly widened: readonly EdgeReading[]; readonly fitting: readonly EdgeReading[] } {
  const stillPx = Math.sqrt(stillSquare);
  const cosineMin = (widenedMin * stillPx) / (risePerMovedPx * lengthPx);
  const widened = edges.filter(({ angle }) => Math.abs(Math.cos(angle - way)) > cosineMin);
  const fitting = widened.filter(({ angle, widthPx }) => {
    const own = movedPx(widthPx, stillPx, Math.cos(angle - way));
    return Math.abs(own / lengthPx - 1) < aslantFits;
  });
  return { widened, fitting };
}

/** Of a long movement edges across are not to be read any more; those aslant are as wide as their angle says. */
function isShownAslant(edges: readonly EdgeReading[], moved: Moved): boolean {
  const { widened, fitting } = widenedBy(edges, moved);
  return fitting.length >= aslantMin && 2 * fitting.length > widened.length;
}

/**
 * Edges further from across: two or more, and most of them, are far narrower than movement and lens together would make
 * them. Only where the movement's own part is so large that even a perfect lens at the spot could not do that.
 */
function isDeniedAslant(edges: readonly EdgeReading[], { way, lengthPx, stillSquare }: Moved): boolean {
  const bySquare = (angle: number): number => (risePerMovedPx * lengthPx * Math.cos(angle - way)) ** 2;
  const aslant = edges.filter(
    ({ angle }) =>
      Math.cos(angle - way) ** 2 <= 0.5 && bySquare(angle) * (1 - deniedBelow) >= deniedBelow * stillSquare,
  );
  const sharp = aslant.filter(
    ({ angle, widthPx }) => widthPx ** 2 < deniedBelow * (bySquare(angle) + stillSquare),
  );
  return sharp.length >= shownBy && 2 * sharp.length > aslant.length;
}

/** Edges across a movement: within 45 degrees of it an edge is told from one that stood still. */
export function acrossMovement(
  edges: readonly EdgeReading[],
  { directionDegrees }: Pick<BlurKind, 'directionDegrees'>,
): EdgeReading[] {
  const way = ((directionDegrees ?? 0) * Math.PI) / 180;
  return edges.filter(({ angle }) => Math.cos(angle - way) ** 2 > 0.5);
}
