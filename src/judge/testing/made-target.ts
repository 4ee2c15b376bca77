import { adaptWhite, applyMatrix, d50Xyz, d65Xyz, rgbSpaces, type Vector3 } from '../../colour/index.ts';
import type { TargetEdition } from '../../facts/index.ts';
import type { Rgb8 } from '../../image/index.ts';
import { publishedPatches } from '../colour/published-patches.ts';
import { gaussian } from './made-light.ts';

/** How a target is held into a made picture. */
export interface MadeTarget {
  readonly centre: readonly [x: number, y: number];
  /** Six steps from patch to patch, as it would be untilted, px. */
  readonly widthPx: number;
  /** Clockwise. */
  readonly rotationDegrees?: number;
  /** Out of the picture's plane, about an axis that lies in it. */
  readonly tiltDegrees?: number;
  readonly tiltAxisDegrees?: number;
  readonly mirrored?: boolean;
  readonly edition?: TargetEdition;
  /** Linear sRGB of 24 patches in the place of the published ones. */
  readonly patches?: readonly Vector3[];
}

export interface MadePicture {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly targets: readonly MadeTarget[];
  /** Linear light of every channel: a lamp's colour, an exposure. */
  readonly gains?: Vector3;
  /** Standard deviation, 8-bit codes. */
  readonly noise?: number;
  /** What lies behind, linear sRGB. */
  readonly behind?: (x: number, y: number) => Vector3;
}

/** Linear sRGB of the patches, cut at the gamut as a camera's picture is. */
export function madePatches(edition: TargetEdition): readonly Vector3[] {
  const toSrgb = (xyz: Vector3): Vector3 =>
    applyMatrix(rgbSpaces.srgb.fromXyz, applyMatrix(adaptWhite(d50Xyz, d65Xyz), xyz));
  return publishedPatches[edition].xyz.map((xyz) => {
    const [r, g, b] = toSrgb(xyz);
    return [Math.max(0, r), Math.max(0, g), Math.max(0, b)];
  });
}

/** Side of a patch, share of the step from patch to patch: the proportions of `test/vectors/colour-target`. */
const patchShare = 0.84;
const borderLight: Vector3 = [0.022, 0.022, 0.022];

/**
 * From picture to the target's plane (patch columns 0 … 5 and rows 0 … 3 at whole numbers), by a pinhole three target
 * widths away: the line of sight through a pixel is cut with the tilted plane.
 */
export function pictureToTarget(
  target: MadeTarget,
): (x: number, y: number) => readonly [u: number, v: number] {
  const distance = 3 * target.widthPx;
  const radians = (degrees = 0): number => (degrees * Math.PI) / 180;
  const rotation = radians(target.rotationDegrees);
  const axis = radians(target.tiltAxisDegrees);
  const [tiltSine, tiltCosine] = [
    Math.sin(radians(target.tiltDegrees)),
    Math.cos(radians(target.tiltDegrees)),
  ];
  // The plane's two directions: in the picture first, then turned about the axis out of it.
  const turned = (x: number, y: number): Vector3 => {
    const along = x * Math.cos(axis) + y * Math.sin(axis);
    const across = -x * Math.sin(axis) + y * Math.cos(axis);
    const flat = across * tiltCosine;
    return [
      along * Math.cos(axis) - flat * Math.sin(axis),
      along * Math.sin(axis) + flat * Math.cos(axis),
      across * tiltSine,
    ];
  };
  const [rx, ry, rz] = turned(Math.cos(rotation), Math.sin(rotation));
  const [dx, dy, dz] = turned(-Math.sin(rotation), Math.cos(rotation));
  const [nx, ny, nz] = [ry * dz - rz * dy, rz * dx - rx * dz, rx * dy - ry * dx];
  const step = target.widthPx / 6;
  const hand = target.mirrored === true ? -1 : 1;
  return (x, y) => {
    const [px, py] = [x - target.centre[0], y - target.centre[1]];
    const reach = (nz * distance) / (nx * px + ny * py + nz * distance);
    const [hx, hy, hz] = [px * reach, py * reach, distance * reach - distance];
    return [2.5 + (hand * (hx * rx + hy * ry + hz * rz)) / step, 1.5 + (hx * dx + hy * dy + hz * dz) / step];
  };
}

/** The made picture, each pixel the mean of 4 x 4 points, coded as sRGB. */
export function madeTargetPicture(made: MadePicture): Rgb8 {
  const { widthPx, heightPx, targets, gains = [1, 1, 1], noise = 0 } = made;
  const behind = made.behind ?? (() => [0.25, 0.24, 0.22] satisfies Vector3);
  const random = gaussian(widthPx + heightPx);
  const data = new Uint8Array(widthPx * heightPx * 3);
  const patches = targets.map(
    ({ patches: own, edition = 'from-november-2014' }) => own ?? madePatches(edition),
  );
  const planes = targets.map(pictureToTarget);
  const lightAt = (x: number, y: number): Vector3 => {
    for (let index = 0; index < planes.length; index++) {
      const [u = -9, v = -9] = planes[index]?.(x, y) ?? [];
      if (u < -0.8 || u > 5.8 || v < -0.8 || v > 3.8) continue;
      const [column, row] = [Math.round(u), Math.round(v)];
      const onPatch =
        column >= 0 &&
        column <= 5 &&
        row >= 0 &&
        row <= 3 &&
        Math.max(Math.abs(u - column), Math.abs(v - row)) < patchShare / 2;
      return (onPatch ? patches[index]?.[row * 6 + column] : undefined) ?? borderLight;
    }
    return behind(x, y);
  };
  for (let at = 0; at < widthPx * heightPx; at++) {
    const sum = [0, 0, 0];
    const [x, y] = [at % widthPx, Math.floor(at / widthPx)];
    for (let part = 0; part < 16; part++) {
      const light = lightAt(x + ((part % 4) - 1.5) / 4, y + ((part >> 2) - 1.5) / 4);
      for (let k = 0; k < 3; k++) sum[k] = (sum[k] ?? 0) + (light[k] ?? 0) / 16;
    }
    for (let k = 0; k < 3; k++) {
      const linear = Math.min(1, (sum[k] ?? 0) * (gains[k] ?? 1));
      const code = 255 * rgbSpaces.srgb.transfer.encode(linear) + noise * random();
      data[at * 3 + k] = Math.min(255, Math.max(0, Math.round(code)));
    }
  }
  return { data, widthPx, heightPx, channels: 3 };
}
