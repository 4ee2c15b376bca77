import { readSlate, type Slate } from './payload.ts';

/** Left top, right top, right bottom, left bottom of a code as it is held, in pixels of the picture. */
export type Corners = readonly [Point, Point, Point, Point];

interface Point {
  readonly x: number;
  readonly y: number;
}

/** A code that was read in a picture. */
export interface FoundCode {
  readonly text: string;
  readonly corners: Corners;
}

/** `none`: no slate of ours; `several`: slates of different meaning, and none lies at the middle. */
export type Meant =
  | { readonly kind: 'none' }
  | { readonly kind: 'several'; readonly count: number }
  | { readonly kind: 'one'; readonly slate: Slate };

/**
 * The slate that somebody meant. A sheet of all shots shows its neighbours too: then it is the one that covers the middle
 * of the picture, with half its size around it for a hand that is not steady. Wrong is worse than none.
 */
export function meantSlate(
  codes: readonly FoundCode[],
  picture: { readonly widthPx: number; readonly heightPx: number },
): Meant {
  const found = codes.flatMap(({ text, corners }) => {
    const slate = readSlate(text);
    return slate === null ? [] : [{ slate, corners }];
  });
  const [first] = found;
  if (first === undefined) return { kind: 'none' };
  const meanings = new Set(found.map(({ slate }) => meaningOf(slate)));
  if (meanings.size === 1) return { kind: 'one', slate: first.slate };
  const middle = { x: picture.widthPx / 2, y: picture.heightPx / 2 };
  const atMiddle = found.filter(({ corners }) => covers(corners, middle));
  const [only] = atMiddle;
  const unsure = new Set(atMiddle.map(({ slate }) => meaningOf(slate))).size !== 1;
  if (only === undefined || unsure) return { kind: 'several', count: meanings.size };
  return { kind: 'one', slate: only.slate };
}

/** Two clocks that a slow shutter caught are one clock that was read twice: the picture means neither for certain. */
function meaningOf(slate: Slate): string {
  return slate.kind === 'shot' ? `${slate.job}\n${slate.shot}` : `clock ${slate.atMs}`;
}

/** Whether the point lies within the code's box, grown by half its size to all sides. */
function covers(corners: Corners, { x, y }: Point): boolean {
  const xs = corners.map((corner) => corner.x);
  const ys = corners.map((corner) => corner.y);
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const [reachX, reachY] = [(right - left) / 2, (bottom - top) / 2];
  return x >= left - reachX && x <= right + reachX && y >= top - reachY && y <= bottom + reachY;
}
