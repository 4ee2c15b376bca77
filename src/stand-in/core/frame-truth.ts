/** What is known of a frame because it was made: later readings are held against it. */
import { pictureFacts, type Shake } from './frame-faults.ts';
import type { FramePurpose, FrameRecipe, ShotName } from './frame-plan.ts';
import type { FrameSize } from './frame-size.ts';
import { type CornersPx, codeCorners, slatePlace } from './held-card.ts';
import type { Camera } from './kernels/stage.ts';
import { labToXyzD65 } from './lab-to-scene.ts';
import { relightMatrix } from './light-white.ts';
import { transform3 } from './matrix3.ts';
import { cameraFor, subjectMmPerPx } from './set-camera.ts';
import { lensSigmaPx } from './set-facts.ts';
import { variantOf } from './set-variant.ts';
import { type PixelBox, subjectBox } from './subject-box.ts';
import { type PatchPlace, targetPatches } from './target-place.ts';

export interface FrameTruth {
  readonly shot: ShotName;
  readonly purpose: FramePurpose;
  readonly widthPx: number;
  readonly heightPx: number;
  /** EV against the shot's right exposure. */
  readonly exposureEv: number;
  /** How far the whole picture lies right of and below the shot's reference, pixels as the sensor lies. */
  readonly offsetPx: readonly [number, number];
  /**
   * Standard deviation of the Gaussian blur in the plane of focus, pixels: the lens's own and what was added. The pixel's
   * own aperture (a square of one pixel: 1/12 of variance) is not in it.
   */
  readonly sigmaPx: number;
  /** The same with the pixel's aperture, which is what an edge in the file shows. */
  readonly sigmaWithPixelPx: number;
  /** The camera moved while the shutter was open. */
  readonly shake: Shake | null;
  readonly lens: LensTruth;
  readonly light: LightTruth;
  /** Null where there is no ware. */
  readonly subject: SubjectTruth | null;
  /** The target's patches where it is in the picture. */
  readonly patches: readonly PatchTruth[];
  /** What is held in front of all that; null for nothing. */
  readonly held: HeldTruth | null;
}

/** A code with the corners of its modules (quiet zone left out) on the sensor, sharp; or a grey card over everything. */
export type HeldTruth =
  | { readonly kind: 'slate'; readonly text: string; readonly cornersPx: CornersPx }
  | { readonly kind: 'grey-card' };

/** A thin lens: what lies at z instead of `focusMm` is a disc of diameter A f |z - S| / (z (S - f)) on the sensor. */
export interface LensTruth {
  readonly focalMm: number;
  readonly apertureMm: number;
  /** Plane of focus, along the axis. */
  readonly focusMm: number;
  /** From the lens to the sensor. */
  readonly imageMm: number;
  readonly pixelMm: number;
}

export interface LightTruth {
  /** CIE 1931 x, y. */
  readonly whiteXy: readonly [number, number];
  readonly temperatureK: number;
  /** False: the strobe of the key light stayed dark. */
  readonly keyFires: boolean;
}

export interface SubjectTruth {
  /** Left, top, right, bottom of the ware on the sensor, its shadow left out, sharp; may reach beyond the frame. */
  readonly boxPx: PixelBox;
  /** How far the ware stands right of its place, mm, and what that is on the sensor at the distance looked at. */
  readonly shiftMm: number;
  readonly shiftPx: readonly [number, number];
}

export interface PatchTruth extends PatchPlace {
  /** Standard deviation of all blur but shake in the patch's middle, pixels, without the pixel's aperture. */
  readonly sigmaPx: number;
  /** CIE XYZ as this frame's light shows it, a perfect diffuser at Y = 1; exposure and evenness not in it. */
  readonly xyz: readonly [number, number, number];
}

export function frameTruth(recipe: FrameRecipe, size: FrameSize): FrameTruth {
  const facts = pictureFacts(recipe);
  const variant = variantOf(recipe, size);
  const camera = cameraFor(recipe.shot, recipe.purpose, size);
  const [dx, dy] = recipe.offsetPx;
  const sigmaPx = Math.hypot(lensSigmaPx, facts.addedSigmaPx);
  const relight = relightMatrix(facts.whiteXy);
  return {
    shot: recipe.shot,
    purpose: recipe.purpose,
    widthPx: size.widthPx,
    heightPx: size.heightPx,
    exposureEv: facts.exposureEv,
    offsetPx: recipe.offsetPx,
    sigmaPx,
    sigmaWithPixelPx: Math.sqrt(sigmaPx ** 2 + 1 / 12),
    shake: facts.shake,
    lens: lensTruth(camera),
    light: { whiteXy: facts.whiteXy, temperatureK: facts.temperatureK, keyFires: variant.keyFires },
    subject: recipe.purpose === 'chart' ? null : subjectTruth(recipe, size, camera, variant.subjectShiftMm),
    patches: targetPatches(recipe, size, variant.keyFires).map((patch) => ({
      ...patch,
      cornersPx: patch.cornersPx.map(([x, y]) => [x + dx, y + dy] as const),
      sigmaPx: Math.sqrt(sigmaPx ** 2 + patch.circlePx ** 2 / 4),
      xyz: transform3(relight, labToXyzD65(patch.labD50)),
    })),
    held: heldTruth(recipe, size),
  };
}

function heldTruth(recipe: FrameRecipe, size: FrameSize): HeldTruth | null {
  const { held } = recipe;
  if (held?.kind !== 'slate') return held ?? null;
  const [dx, dy] = recipe.offsetPx;
  const corners = codeCorners(held.text, slatePlace(recipe, size));
  return { ...held, cornersPx: corners.map(([x, y]) => [x + dx, y + dy] as const) };
}

function lensTruth({ lens, forward, pixelMm }: Camera): LensTruth {
  return { ...lens, imageMm: Math.hypot(...forward), pixelMm };
}

function subjectTruth(
  { shot, offsetPx: [dx, dy] }: FrameRecipe,
  size: FrameSize,
  camera: Camera,
  shiftMm: number,
): SubjectTruth {
  const [left, top, right, bottom] = subjectBox(shot, camera, size, shiftMm);
  const shift = shiftMm / subjectMmPerPx(shot, size);
  // The set's right in sensor pixels: the sensor may be turned.
  const unit = 1 / camera.pixelMm;
  return {
    boxPx: [left + dx, top + dy, right + dx, bottom + dy],
    shiftMm,
    shiftPx: [shift * (camera.right[0] ?? 0) * unit, shift * (camera.down[0] ?? 0) * unit],
  };
}
