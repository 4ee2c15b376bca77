import { applyMatrix, d65Xyz, deltaE2000, rgbSpaces, type Vector3, xyzToLab } from '../../../colour/index.ts';
import type { TargetReadings } from '../../../contract/index.ts';
import type { RgbHalf } from '../../../image/index.ts';
import { type Look, type LookProfile, lookFunction } from '../../../look/index.ts';
import { targetCells } from '../../readings/geometry/target-cells.ts';
import { lightAbout } from '../stage/scene-point.ts';

/** A patch of the target as a look shows it. */
export interface PatchError {
  readonly patch: number;
  /** As it is published, and as it is shown; sRGB. */
  readonly published: string;
  readonly shown: string;
  /** CIEDE2000 between the two. */
  readonly deltaE00: number;
}

/** Of a patch the middle is looked at, this share of its edge to each side. */
const reachShare = 0.22;

/**
 * Each patch of a target under a look: the mean light of its middle through the look's exact formula, against the
 * published colour. Both as a screen of sRGB shows them, Lab relative to D65.
 */
export function patchErrors(
  scene: RgbHalf,
  target: Pick<TargetReadings, 'corners' | 'patches'>,
  look: Look,
  profile: LookProfile,
): readonly PatchError[] {
  const formula = lookFunction(look, profile);
  return targetCells(target, 0).map(({ patch, corners, middle }) => {
    const [[left, top] = [0, 0], [right, high] = [0, 0]] = corners;
    const edgePx = Math.hypot((right - left) * scene.widthPx, (high - top) * scene.heightPx);
    const light = lightAbout(scene, middle[0], middle[1], Math.floor(edgePx * reachShare));
    const xyz = applyMatrix(rgbSpaces.rec2020.toXyz, formula(light));
    const shown = cut(applyMatrix(rgbSpaces.srgb.fromXyz, xyz));
    return {
      patch: patch.patch,
      published: patch.published,
      shown: hexOf(shown),
      deltaE00: deltaE2000(labOf(linearOf(patch.published)), labOf(shown)),
    };
  });
}

function labOf(linear: Vector3): Vector3 {
  return xyzToLab(applyMatrix(rgbSpaces.srgb.toXyz, linear), d65Xyz);
}

function cut([r, g, b]: Vector3): Vector3 {
  const held = (value: number): number => Math.min(1, Math.max(0, value));
  return [held(r), held(g), held(b)];
}

function linearOf(hex: string): Vector3 {
  const channel = (at: number): number =>
    rgbSpaces.srgb.transfer.decode(Number.parseInt(hex.slice(at, at + 2), 16) / 255);
  return [channel(1), channel(3), channel(5)];
}

function hexOf(linear: Vector3): string {
  const code = (value: number): string =>
    Math.round(255 * rgbSpaces.srgb.transfer.encode(value))
      .toString(16)
      .padStart(2, '0');
  return `#${linear.map(code).join('')}`;
}
