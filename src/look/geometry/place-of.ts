import {
  applyMatrix,
  identityMatrix,
  invertMatrix,
  type Matrix3,
  multiplyMatrices,
} from '../../colour/index.ts';
import type { Finding } from '../../facts/index.ts';
import type { Region, Size } from '../../image/index.ts';
import type { Geometry } from '../schema.ts';
import { largestCrop, type Point } from './largest-crop.ts';
import { areOneLine, levelLines } from './level-lines.ts';

/**
 * Where a look's geometry puts a picture. Places are in pixels at full size, x to the right and y down, whole numbers at the
 * pixels' outer corners: the first pixel's middle is (0.5, 0.5).
 */
export interface Placing extends Size {
  /** (x, y, 1) of the upright original to the levelled plane that `crop` lies in: divide by the third. Row order. */
  readonly toPlane: Matrix3;
  /** What is shown of the plane. The picture placed is its whole pixels. */
  readonly crop: Region;
  /** (x, y, 1) of the picture placed to the upright original: divide by the third. */
  readonly toOriginal: Matrix3;
  /** Whether every pixel is one of the original's, so that nothing is resampled. */
  readonly isWhole: boolean;
  /**
   * `look.lines-too-steep` where the two lines cannot be levelled, and were left alone; `look.lines-are-one` where they are the
   * same line.
   */
  readonly findings: readonly Finding[];
}

/**
 * Where geometry puts an upright original of `widthPx` x `heightPx`. In this order: the lines are levelled, the picture is
 * flipped, turned by `straightenDeg` (clockwise, as it is then seen), and cut to the largest rectangle of the crop's ratio, or
 * else of the original's own, that has picture everywhere. The ends of lines and the middle of the crop are places in the
 * original, so that what they point at stays the same when something else is changed; a crop that would reach out of the
 * picture is moved inside. At the crop's middle a pixel is as large as the original's.
 */
export function placeOf(geometry: Geometry, widthPx: number, heightPx: number): Placing {
  const size = { widthPx, heightPx };
  const { straightenDeg, lines, flip, crop } = geometry;
  const levelled = lines === null ? identityMatrix : levelLines(lines, size);
  const isWhole = straightenDeg === 0 && (lines === null || levelled === null);
  const about = [levelled ?? identityMatrix, flipped(flip), turned(straightenDeg)].reduce((done, next) =>
    multiplyMatrices(next, done),
  );
  const shape = crop ?? { across: widthPx, down: heightPx, size: 1, centreX: 0.5, centreY: 0.5 };
  const middle: Point = [(shape.centreX - 0.5) * widthPx, (shape.centreY - 0.5) * heightPx];
  const cornerOf = (x: number, y: number): Point => moved(about, [x * widthPx, y * heightPx]);
  const corners = [
    cornerOf(-0.5, -0.5),
    cornerOf(0.5, -0.5),
    cornerOf(0.5, 0.5),
    cornerOf(-0.5, 0.5),
  ] as const;
  const found = largestCrop(corners, shape.across, shape.down, shape.size, moved(about, middle));
  // The plane's first corner is that of the picture, whether flipped or not, so that whole pixels stay whole.
  const gain = isWhole
    ? 1
    : gainAt(about, [found.leftPx + found.widthPx / 2, found.topPx + found.heightPx / 2]);
  const toPlane = multiplyMatrices(
    [gain, 0, (gain * widthPx) / 2, 0, gain, (gain * heightPx) / 2, 0, 0, 1],
    multiplyMatrices(about, [1, 0, -widthPx / 2, 0, 1, -heightPx / 2, 0, 0, 1]),
  );
  const exact: Region = {
    leftPx: (found.leftPx + widthPx / 2) * gain,
    topPx: (found.topPx + heightPx / 2) * gain,
    widthPx: found.widthPx * gain,
    heightPx: found.heightPx * gain,
  };
  const kept = wholePixels(exact, isWhole);
  const fromPlane = invertMatrix(toPlane) ?? identityMatrix;
  return {
    widthPx: kept.widthPx,
    heightPx: kept.heightPx,
    toPlane,
    crop: kept,
    toOriginal: multiplyMatrices(fromPlane, [1, 0, kept.leftPx, 0, 1, kept.topPx, 0, 0, 1]),
    isWhole,
    findings: findingsOf(lines, levelled, size),
  };
}

function findingsOf(lines: Geometry['lines'], levelled: Matrix3 | null, size: Size): readonly Finding[] {
  if (levelled === null) return [{ code: 'look.lines-too-steep', args: {} }];
  return lines !== null && areOneLine(lines, size) ? [{ code: 'look.lines-are-one', args: {} }] : [];
}

/** The same as `toOriginal`, with places of both pictures as shares of their edges. */
export function sharesToOriginal(geometry: Geometry, original: Size): Matrix3 {
  const { widthPx, heightPx, toOriginal } = placeOf(geometry, original.widthPx, original.heightPx);
  return multiplyMatrices(
    [1 / original.widthPx, 0, 0, 0, 1 / original.heightPx, 0, 0, 0, 1],
    multiplyMatrices(toOriginal, [widthPx, 0, 0, 0, heightPx, 0, 0, 0, 1]),
  );
}

/** A place through a homography. */
export function moved(matrix: Matrix3, [x, y]: Point): Point {
  const [toX, toY, depth] = applyMatrix(matrix, [x, y, 1]);
  return [toX / depth, toY / depth];
}

/** About the picture's middle. */
function flipped(flip: Geometry['flip']): Matrix3 {
  if (flip === 'none') return identityMatrix;
  return flip === 'left-right' ? [-1, 0, 0, 0, 1, 0, 0, 0, 1] : [1, 0, 0, 0, -1, 0, 0, 0, 1];
}

/** Clockwise where y runs down. */
function turned(deg: number): Matrix3 {
  const sine = Math.sin((deg * Math.PI) / 180);
  const cosine = Math.cos((deg * Math.PI) / 180);
  return [cosine, -sine, 0, sine, cosine, 0, 0, 0, 1];
}

/** Edge of one pixel of the original at a place of the plane, one over it: |det| / depth^3 is the area it takes there. */
function gainAt(about: Matrix3, inPlane: Point): number {
  const back = invertMatrix(about) ?? identityMatrix;
  const [, , depth] = applyMatrix(back, [...inPlane, 1]);
  const [a, b, c, d, e, f, g, h, i] = back;
  const determinant = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  return Math.sqrt(Math.abs(determinant / depth ** 3));
}

/** Down to whole pixels about the same middle; on the plane's own pixels where those are the original's. */
function wholePixels({ leftPx, topPx, widthPx, heightPx }: Region, onPixels: boolean): Region {
  const wide = Math.max(1, Math.floor(widthPx + 1e-6));
  const high = Math.max(1, Math.floor(heightPx + 1e-6));
  const left = leftPx + (widthPx - wide) / 2;
  const top = topPx + (heightPx - high) / 2;
  return {
    leftPx: onPixels ? Math.round(left) : left,
    topPx: onPixels ? Math.round(top) : top,
    widthPx: wide,
    heightPx: high,
  };
}
