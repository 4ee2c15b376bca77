import {
  adaptWhite,
  d65Xyz,
  encodeIccProfile,
  type IccProfileFacts,
  invertMatrix,
  type Matrix3,
  multiplyMatrices,
  pcsXyz,
  type RgbSpaceName,
  readIccProfile,
  rgbSpaces,
  xyzToXy,
} from '../colour/index.ts';
import { type OutputSpace, outputSpace } from '../develop/index.ts';
import { badProfile } from './errors.ts';

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

/** Largest ICC profile, bytes. Those of printers with tables for every intent have 1 to 4 MB. */
export const profileBytesMax: number = 16 * 2 ** 20;

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

/**
 * A profile that pictures can be written in: display, output or colour space, of RGB or grey.
 * Errors: `bad-profile`.
 */
export function usableProfile(bytes: Uint8Array): IccProfileFacts {
  if (bytes.length > profileBytesMax) {
    throw badProfile(`The ICC profile is larger than ${profileBytesMax / 2 ** 20} MiB.`);
  }
  const facts = readIccProfile(bytes);
  if (facts === null) throw badProfile('The file is no ICC profile, or it is cut short.');
  const { profileClass, colourSpace } = facts;
  if (!['mntr', 'prtr', 'spac'].includes(profileClass)) {
    throw badProfile(
      `The ICC profile is of the class “${profileClass.trim()}”, which no picture is written in.`,
    );
  }
  if (colourSpace !== 'RGB ' && colourSpace !== 'GRAY') {
    throw badProfile(`The ICC profile is for ${colourSpace.trim()}; pictures are written in RGB or grey.`);
  }
  return facts;
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
