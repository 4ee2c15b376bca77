import { type IccProfileFacts, readIccProfile } from '../colour/index.ts';
import { badProfile } from './errors.ts';

/** Largest ICC profile, bytes. Those of printers with tables for every intent have 1 to 4 MB. */
export const profileBytesMax: number = 16 * 2 ** 20;

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
