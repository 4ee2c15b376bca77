import { deltaE2000, type Matrix3, type Vector3 } from '../../colour/index.ts';
import type {
  ColourMap,
  ColourReading,
  LightSourceName,
  Mosaic,
  Orientation,
  PatchReading,
  TargetEdition,
  TargetPlace,
  TargetReading,
  Triple,
} from '../../facts/index.ts';
import type { Rgb8 } from '../../image/index.ts';
import { uprightShare } from '../sharp/upright-sharp.ts';
import { type ColourLight, colourOfMosaic, colourOfPicture, smallestOne } from './colour-light.ts';
import { readColourMap } from './colour-map.ts';
import { type FoundTarget, findTarget } from './find-target.ts';
import { greyError } from './grey-error.ts';
import { applyHomography } from './homography.ts';
import { mosaicToXyz, srgbToXyz } from './light-to-xyz.ts';
import { makeProfile } from './make-profile.ts';
import { exposureGain, isUsable, labPairs, xyzOf } from './patch-colours.ts';
import { type PatchLight, readPatches } from './patch-light.ts';
import { greyPatches, type PublishedPatches, publishedPatches } from './published-patches.ts';
import { recogniseEdition } from './recognise-edition.ts';
import { chromaError, type LabPair, lightnessError, summarise } from './summary.ts';

/** The edition of the target where somebody has said it; null to recognise it. */
export interface ColourWishes {
  readonly edition: TargetEdition | null;
}

/**
 * Finds the 24-patch target in a raw and reads it, on the raw's own values. No target, or one that cannot be read, is an
 * answer and not an error. The mosaic is only read.
 */
export function readColourMosaic(mosaic: Mosaic, wishes: ColourWishes): ColourReading {
  return targetOfMosaic(colourOfMosaic(mosaic), mosaic, wishes);
}

/** What a frame says of its colours: those of its parts, and of a target where one is asked for. */
export interface FrameColours {
  readonly colour: ColourReading | null;
  /** Null of a preview. */
  readonly colours: ColourMap | null;
}

/** Colours of a raw's parts and, where `wishes` is not null, of its target. The mosaic is only read. */
export function readColoursOfMosaic(mosaic: Mosaic, wishes: ColourWishes | null): FrameColours {
  const light = colourOfMosaic(mosaic);
  const multipliers = smallestOne(mosaic.asShotMultipliers);
  const { orientation } = mosaic;
  return {
    colours: readColourMap(light, { source: 'raw', multipliers, toXyz: mosaicToXyz(mosaic), orientation }),
    colour: wishes === null ? null : targetOfMosaic(light, mosaic, wishes),
  };
}

function targetOfMosaic(light: ColourLight, mosaic: Mosaic, { edition }: ColourWishes): ColourReading {
  const { orientation } = mosaic;
  const found = findTarget(light, mirroring.includes(orientation));
  if (typeof found === 'string') return { found: false, source: 'raw', why: found };
  return readTarget(light, found, {
    source: 'raw',
    toXyz: mosaicToXyz(mosaic),
    multipliers: smallestOne(mosaic.asShotMultipliers),
    orientation,
    edition,
  });
}
const mirroring: readonly Orientation[] = [2, 4, 5, 7];

/**
 * The same of a finished sRGB picture, upright. `fullWidthPx`: width of the full-size frame where the picture is a preview
 * of it; then no profile is made.
 */
export function readColourPicture(
  picture: Rgb8,
  wishes: ColourWishes,
  fullWidthPx: number | null,
): ColourReading {
  return targetOfPicture(pictureColour(picture, fullWidthPx), wishes, fullWidthPx);
}

/** As {@link readColoursOfMosaic}, of a finished picture. */
export function readColoursOfPicture(
  picture: Rgb8,
  wishes: ColourWishes | null,
  fullWidthPx: number | null,
): FrameColours {
  if (wishes === null && fullWidthPx !== null) return { colour: null, colours: null };
  const light = pictureColour(picture, fullWidthPx);
  const as = { source: 'picture', multipliers: [1, 1, 1], toXyz: srgbToXyz, orientation: 1 } as const;
  return {
    colours: fullWidthPx === null ? readColourMap(light, as) : null,
    colour: wishes === null ? null : targetOfPicture(light, wishes, fullWidthPx),
  };
}

function pictureColour(picture: Rgb8, fullWidthPx: number | null): ColourLight {
  return colourOfPicture(picture, Math.max(1, (fullWidthPx ?? 0) / Math.max(1, picture.widthPx)));
}

function targetOfPicture(
  light: ColourLight,
  { edition }: ColourWishes,
  fullWidthPx: number | null,
): ColourReading {
  const source = fullWidthPx === null ? 'picture' : 'preview';
  const found = findTarget(light, false);
  if (typeof found === 'string') return { found: false, source, why: found };
  return readTarget(light, found, {
    source,
    toXyz: srgbToXyz,
    multipliers: null,
    orientation: 1,
    edition,
  });
}

interface Seen {
  readonly source: LightSourceName;
  /** Light to XYZ D50, or null. */
  readonly toXyz: Matrix3 | null;
  /** What the light is balanced by; null of a finished picture. */
  readonly multipliers: Triple | null;
  readonly orientation: Orientation;
  readonly edition: TargetEdition | null;
}

function readTarget(light: ColourLight, found: FoundTarget, seen: Seen): TargetReading {
  const patches = readPatches(light, found.toLight);
  const { edition, editionBy } =
    seen.edition === null
      ? recogniseEdition(patches)
      : { edition: seen.edition, editionBy: 'given' as const };
  const published = publishedPatches[edition];
  const usable = (patch: number): boolean => isUsable(patches[patch - 1]);
  const gain = exposureGain(patches, published, seen.toXyz, usable);
  const asMeasured = xyzOf(patches, seen.toXyz, 1);
  const putRight = xyzOf(patches, seen.toXyz, gain);
  const right = labPairs(putRight, published);
  const asIs = seen.source === 'raw' ? [] : labPairs(asMeasured, published);
  const greys = greyPatches.filter(usable);
  const pick = (from: readonly Vector3[]): readonly Vector3[] =>
    greys.flatMap((patch) => from.slice(patch - 1, patch));
  return {
    found: true,
    source: seen.source,
    place: placeOf(light, found, seen.orientation),
    confidence: found.confidence,
    edition,
    editionBy,
    patches: patches.map((patch, index) => patchReading(patch, index, published, right[index])),
    saturatedPatches: 24 - patches.filter((_, index) => usable(index + 1)).length,
    saturatedGreys: greyPatches.length - greys.length,
    exposureEv: -Math.log2(gain),
    colour: summarise(right),
    asIs: summarise(asIs),
    flat: summarise(seen.source === 'raw' ? right : asIs, true),
    greys: greyError(pick(putRight), pick(published.xyz)),
    profile:
      seen.source === 'preview'
        ? null
        : makeProfile(profilePatches(patches, published, usable), seen.multipliers),
  };
}

function patchReading(
  patch: PatchLight,
  index: number,
  { lab }: PublishedPatches,
  pair: LabPair | undefined,
): PatchReading {
  return {
    ...patch,
    patch: index + 1,
    lab: pair?.measured ?? null,
    published: lab[index] ?? [0, 0, 0],
    deltaE00: pair === undefined ? null : deltaE2000(pair.measured, pair.published),
    deltaL: pair === undefined ? null : lightnessError(pair),
    deltaC: pair === undefined ? null : chromaError(pair),
  };
}

function profilePatches(
  patches: readonly PatchLight[],
  published: PublishedPatches,
  usable: (patch: number) => boolean,
) {
  return patches.flatMap(({ light }, index) => {
    const xyz = published.xyz[index];
    return xyz === undefined || !usable(index + 1) ? [] : [{ patch: index + 1, light, xyz }];
  });
}

function placeOf(light: ColourLight, { toLight }: FoundTarget, orientation: Orientation): TargetPlace {
  const corner = (x: number, y: number): readonly [number, number] => {
    const at = applyHomography(toLight, { x, y });
    return uprightShare([(at.x + 0.5) / light.widthPx, (at.y + 0.5) / light.heightPx], orientation);
  };
  const corners = [corner(-0.5, -0.5), corner(5.5, -0.5), corner(5.5, 3.5), corner(-0.5, 3.5)] as const;
  const [width, height] =
    orientation >= 5 ? [light.heightPx, light.widthPx] : [light.widthPx, light.heightPx];
  const across = (
    from: readonly [number, number],
    to: readonly [number, number],
  ): readonly [number, number] => [(to[0] - from[0]) * width, (to[1] - from[1]) * height];
  const [first, second] = [across(corners[0], corners[1]), across(corners[3], corners[2])];
  return {
    corners,
    widthPx: (light.stepPx * (Math.hypot(...first) + Math.hypot(...second))) / 2,
    rotationDegrees: (Math.atan2(first[1] + second[1], first[0] + second[0]) * 180) / Math.PI,
  };
}
