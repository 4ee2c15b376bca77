/** A line by its two ends, shares of the picture's box. */
export type DrawnLine = readonly [x0: number, y0: number, x1: number, y1: number];

/** Two parallels on the way: by a pointer that is drawn along, or by keys end by end. */
export interface Drawing {
  /** The line that is done; null: none is. */
  readonly first: DrawnLine | null;
  /** Where the line on the way began; null: none is on the way. */
  readonly start: Point | null;
  /** Where the pointer is, or the cross that keys move. */
  readonly at: Point;
  /** The line that was to end here is too short to be one. */
  readonly tooShort: boolean;
}

export type Point = readonly [x: number, y: number];

/** A line shorter than this share of the box is none: the schema asks for a twentieth. */
const shortest = 0.06;

export const undrawn: Drawing = { first: null, start: null, at: [0.5, 0.5], tooShort: false };

/** The cross, or the pointer, comes to a place; held in the box. */
export function moved(drawing: Drawing, [x, y]: Point): Drawing {
  return { ...drawing, at: [held(x), held(y)], tooShort: false };
}

/** A line begins where the cross is. */
export function begun(drawing: Drawing): Drawing {
  return { ...drawing, start: drawing.at, tooShort: false };
}

/** What is on the way is given up, else the line before it. Null: there is nothing to give up. */
export function givenUp({ first, start, at }: Drawing): Drawing | null {
  if (start !== null) return { first, start: null, at, tooShort: false };
  return first === null ? null : { first: null, start: null, at, tooShort: false };
}

/** The line that is seen from where it began to where the cross is. */
export function lineOf({ start, at }: Drawing): DrawnLine | null {
  return start === null ? null : [...start, ...at];
}

/**
 * A line ends where the cross is; both, once the second has. A line that is too short is not taken: by keys it is on the way still, and
 * its end may go further; a pointer that was let go begins anew.
 */
export function ended(
  drawing: Drawing,
  by: 'keys' | 'pointer',
): {
  readonly drawing: Drawing;
  readonly lines: readonly [DrawnLine, DrawnLine] | null;
} {
  const line = lineOf(drawing);
  const { first, start, at } = drawing;
  if (line === null) return { drawing, lines: null };
  if (Math.hypot(line[2] - line[0], line[3] - line[1]) < shortest)
    return { drawing: { first, start: by === 'keys' ? start : null, at, tooShort: true }, lines: null };
  return first === null
    ? { drawing: { first: line, start: null, at, tooShort: false }, lines: null }
    : { drawing: undrawn, lines: [first, line] };
}

function held(value: number): number {
  return Math.min(1, Math.max(0, value));
}
