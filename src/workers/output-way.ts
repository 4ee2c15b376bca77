import {
  adaptWhite,
  d65Xyz,
  encodeIccProfile,
  invertMatrix,
  type Matrix3,
  multiplyMatrices,
  pcsXyz,
  type RgbSpaceName,
  rgbSpaces,
  xyzToXy,
} from '../colour/index.ts';
import { type OutputSpace, outputSpace } from '../develop/index.ts';
import { usableProfile } from './usable-profile.ts';

/** What a picture is wanted in. */
export interface OutputWish {
  /** One of the standards' spaces, or an ICC profile's bytes. */
  readonly space: RgbSpaceName | Uint8Array;
  /** Bits of a channel. */
  readonly depth: 8 | 16;
  /** Of the profile put in for a standard's space; default 4. */
  readonly profileVersion?: 2 | 4;
}

/** How a wish is come by. */
export interface OutputWay {
  /** What the picture is rendered in; 16 bits where more is done to it. */
  readonly rendered: OutputSpace;
  /** The profile of that. */
  readonly profile: Uint8Array;
  /** The profile that littleCMS takes it to from there; null: it is there. */
  readonly custom: Uint8Array | null;
}

/** Errors: `bad-profile`. */
export function outputWay({ space, depth, profileVersion = 4 }: OutputWish): OutputWay {
  if (typeof space === 'string') {
    return {
      rendered: outputSpace(space, depth),
      profile: encodeIccProfile(rgbSpaces[space], { version: profileVersion }),
      custom: null,
    };
  }
  const { matrix } = usableProfile(space);
  // Colours are mapped into the gamut of a profile of three colourants, which littleCMS would cut into it; one that is
  // made of tables brings its own way into its gamut along.
  const own = matrix === null || invertMatrix(matrix) === null ? null : throughColourants(matrix);
  return own === null
    ? { rendered: outputSpace('romm', 16), profile: encodeIccProfile(rgbSpaces.romm), custom: space }
    : { ...own, custom: space };
}

/** The colourants of a profile with the curve of sRGB, which spreads 16 bits as the eye does. */
function throughColourants(matrix: Matrix3): Pick<OutputWay, 'rendered' | 'profile'> {
  const { transfer } = rgbSpaces.srgb;
  const profile = encodeIccProfile({
    ...rgbSpaces.srgb,
    title: 'Colourants',
    white: xyzToXy(pcsXyz),
    toXyz: matrix,
  });
  const toXyz = multiplyMatrices(adaptWhite(pcsXyz, d65Xyz), matrix);
  return { rendered: { toXyz, transfer, depth: 16 }, profile };
}
