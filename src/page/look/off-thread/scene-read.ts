import type { ExrPicture } from '../../../image/index.ts';
import type { LookProfile } from '../../../look/index.ts';

/** What the station says of a scene beside its pixels. */
export interface SceneFacts {
  /** What a look has to know of the picture. */
  readonly profile: LookProfile;
  /** `raster`: a picture that its camera finished. */
  readonly light: 'raw' | 'raster';
  /** The upright picture at full size. */
  readonly full: { readonly widthPx: number; readonly heightPx: number };
}

export function sceneFacts({ notes, whole }: Pick<ExrPicture, 'notes' | 'whole'>): SceneFacts {
  const { asShotX, asShotY, balancedOn, light, fullWidth, fullHeight } = notes;
  const isKnown = typeof asShotX === 'number' && typeof asShotY === 'number';
  return {
    profile: {
      asShotWhite: isKnown ? [asShotX, asShotY] : null,
      // Balanced on a target, its greys are neutral already.
      targetNeutral: balancedOn === 'target' ? [1, 1, 1] : null,
    },
    light: light === 'raster' ? 'raster' : 'raw',
    full: {
      widthPx: typeof fullWidth === 'number' ? fullWidth : whole.widthPx,
      heightPx: typeof fullHeight === 'number' ? fullHeight : whole.heightPx,
    },
  };
}
