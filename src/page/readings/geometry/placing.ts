import { applyMatrix, identityMatrix, invertMatrix, type Matrix3 } from '../../../colour/index.ts';
import type { Frame } from '../../../contract/index.ts';
import type { SharePoint } from '../../../facts/index.ts';

/** Where a look put a picture: places are shares, of the picture that is shown and of the whole original. */
export interface Placing {
  /** Shares of the original to shares of the picture shown; what was cut off lies outside 0 … 1. */
  readonly toShown: (at: SharePoint) => SharePoint;
  readonly toOriginal: (at: SharePoint) => SharePoint;
  /** The whole upright original; only its shape counts. */
  readonly original: { readonly width: number; readonly height: number };
  /** Whether the picture shown is the original, all of it and as it lies. */
  readonly isPlain: boolean;
}

/**
 * Where a frame's look put it; null where that was not told when it was noted. `shown`: shape of what is shown, which a
 * picture that is not rendered yet is all of.
 */
export function placingOf(picture: Frame['picture'], shown: Placing['original']): Placing | null {
  const original = picture.state === 'rendered' ? picture.original : null;
  if (original === null) return plain(shown);
  const toOriginal = matrixOf(original.toOriginal);
  const toShown = toOriginal === null ? null : invertMatrix(toOriginal);
  if (toOriginal === null || toShown === null) return null;
  return { toShown: through(toShown), toOriginal: through(toOriginal), original, isPlain: false };
}

/** A picture that is all of its original. */
function plain(original: Placing['original']): Placing {
  const same = through(identityMatrix);
  return { toShown: same, toOriginal: same, original, isPlain: true };
}

function matrixOf(numbers: readonly number[] | null): Matrix3 | null {
  const [a, b, c, d, e, f, g, h, i, ...others] = numbers ?? [];
  if (a === undefined || b === undefined || c === undefined || d === undefined || e === undefined)
    return null;
  if (f === undefined || g === undefined || h === undefined || i === undefined || others.length > 0)
    return null;
  return [a, b, c, d, e, f, g, h, i];
}

function through(matrix: Matrix3): (at: SharePoint) => SharePoint {
  return ({ x, y }) => {
    const [toX, toY, depth] = applyMatrix(matrix, [x, y, 1]);
    return { x: toX / depth, y: toY / depth };
  };
}
