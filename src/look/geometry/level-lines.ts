import {
  applyMatrix,
  diagonalMatrix,
  type Matrix3,
  multiplyMatrices,
  type Vector3,
} from '../../colour/index.ts';
import type { Size } from '../../image/index.ts';
import type { Geometry } from '../schema.ts';

/**
 * Focal length that is assumed, in diagonals of the picture: that of a normal lens (common practice, no source). Lines come
 * out parallel whatever it is; only how far the picture is stretched along them depends on it.
 */
const focalDiagonals = 1;

/** Least share that the nearest corner's scale may be of the furthest one's: beyond, hardly anything of a picture is left. */
const scaleShareMin = 0.25;

/**
 * The turn of the camera that makes two lines of the upright original vertical, or horizontal where they are nearer to
 * that, as a matrix on (x, y, 1) in pixels from the picture's middle. Null where the two meet in the picture or so near it
 * that no camera could have been turned so far.
 *
 * R. Hartley, A. Zisserman: Multiple View Geometry in Computer Vision, 2nd ed. 2003, 8.4: pictures of a camera that turns
 * about its centre are related by K R K^-1. Here, R is the smallest turn that takes the direction of the lines' vanishing
 * point to the picture's own vertical or horizontal.
 */
export function levelLines(
  lines: NonNullable<Geometry['lines']>,
  { widthPx, heightPx }: Size,
): Matrix3 | null {
  const focalPx = focalOf({ widthPx, heightPx });
  const ends = raysOf(lines, { widthPx, heightPx });
  const [first, second] = ends;
  const along = ends.map(([from, to]): Vector3 => [to[0] - from[0], to[1] - from[1], 0]);
  const across = along.reduce((sum, [x]) => sum + Math.abs(x), 0);
  const down = along.reduce((sum, [, y]) => sum + Math.abs(y), 0);
  const wanted: Vector3 = down >= across ? [0, 1, 0] : [1, 0, 0];
  // Rays of the two lines span planes through the camera's centre; their common direction is that of the vanishing point.
  const common = cross(cross(...first), cross(...second));
  const direction = unit(areOneLine(lines, { widthPx, heightPx }) ? (along[0] ?? wanted) : common);
  const turn = turnBetween(dot(direction, wanted) < 0 ? scaled(direction, -1) : direction, wanted);
  if (turn === null) return null;
  const matrix = multiplyMatrices(
    diagonalMatrix([focalPx, focalPx, 1]),
    multiplyMatrices(turn, diagonalMatrix([1 / focalPx, 1 / focalPx, 1])),
  );
  return isModest(matrix, widthPx / 2, heightPx / 2) ? matrix : null;
}

/** Whether two lines are pieces of the same one: then there is no telling where they meet, and the picture is only turned. */
export function areOneLine(lines: NonNullable<Geometry['lines']>, size: Size): boolean {
  const [first, second] = raysOf(lines, size);
  const [one, other] = [cross(...first), cross(...second)];
  return Math.hypot(...cross(one, other)) < 1e-9 * Math.hypot(...one) * Math.hypot(...other);
}

function focalOf({ widthPx, heightPx }: Size): number {
  return focalDiagonals * Math.hypot(widthPx, heightPx);
}

type Ends = readonly [from: Vector3, to: Vector3];

/** Rays to the ends of both lines. */
function raysOf([first, second]: NonNullable<Geometry['lines']>, size: Size): readonly [Ends, Ends] {
  const ray = (x: number, y: number): Vector3 => [
    (x - 0.5) * size.widthPx,
    (y - 0.5) * size.heightPx,
    focalOf(size),
  ];
  const ends = ([x0, y0, x1, y1]: NonNullable<Geometry['lines']>[number]): Ends => [ray(x0, y0), ray(x1, y1)];
  return [ends(first), ends(second)];
}

function isModest(matrix: Matrix3, x: number, y: number): boolean {
  const corners: readonly Vector3[] = [
    [-x, -y, 1],
    [x, -y, 1],
    [x, y, 1],
    [-x, y, 1],
  ];
  const depths = corners.map((corner) => applyMatrix(matrix, corner)[2]);
  return Math.min(...depths) > scaleShareMin * Math.max(...depths);
}

/** The smallest turn that takes one unit vector to another (Rodrigues); null for opposite ones, where there is no smallest. */
function turnBetween(from: Vector3, to: Vector3): Matrix3 | null {
  const [x, y, z] = cross(from, to);
  const cosine = dot(from, to);
  if (cosine < -0.999) return null;
  const k = 1 / (1 + cosine);
  return [
    cosine + k * x * x,
    k * x * y - z,
    k * x * z + y,
    k * x * y + z,
    cosine + k * y * y,
    k * y * z - x,
    k * x * z - y,
    k * y * z + x,
    cosine + k * z * z,
  ];
}

function cross([a, b, c]: Vector3, [x, y, z]: Vector3): Vector3 {
  return [b * z - c * y, c * x - a * z, a * y - b * x];
}

function dot([a, b, c]: Vector3, [x, y, z]: Vector3): number {
  return a * x + b * y + c * z;
}

function scaled([x, y, z]: Vector3, by: number): Vector3 {
  return [x * by, y * by, z * by];
}

function unit(v: Vector3): Vector3 {
  return scaled(v, 1 / Math.hypot(...v));
}
