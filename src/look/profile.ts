import type { Chromaticity, Vector3 } from '../colour/index.ts';

/** What a look has to know of the picture it is compiled for. Light comes in as linear Rec.2020, balanced as shot. */
export interface LookProfile {
  /** The white that the camera's balance took for white; null where it is not known, and then D65 is assumed. */
  readonly asShotWhite: Chromaticity | null;
  /** Scene light of the target's greys, balanced as shot; null where no target was photographed. */
  readonly targetNeutral: Vector3 | null;
}

/** Nothing is known of the picture. */
export const unknownProfile: LookProfile = { asShotWhite: null, targetNeutral: null };
