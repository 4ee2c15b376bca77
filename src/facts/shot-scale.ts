/** A point of the upright picture, shares of its width and height. */
export interface SharePoint {
  readonly x: number;
  readonly y: number;
}

/** How a scale is told: five steps between patches of a 24-patch target in the frame, or two marked points. */
export const scaleTellers = ['target', 'points'] as const;
export type ScaleTeller = (typeof scaleTellers)[number];

/** How large things on the set are in the pictures of a shot, as somebody told it on one of its frames. */
export interface ShotScale {
  readonly shot: string;
  /** The frame it was told on, and its camera: for another camera it says nothing. */
  readonly frame: string;
  readonly camera: string;
  readonly by: ScaleTeller;
  /** A length on the set, mm, above 0, and how long it is in that frame at full size, px, above 0. */
  readonly mm: number;
  readonly px: number;
  /** The longer side of that frame, px: a frame of another size shows the same in so many more or fewer. */
  readonly longSidePx: number;
  /** What the lens was set to; null where the camera did not say. A frame at another focal length has another scale. */
  readonly focalLengthMm: number | null;
}

/** From the first to the sixth patch of a row are so many steps. */
export const targetSteps = 5;
/** Steps that the width of a target (`TargetPlace.widthPx`) holds. */
export const targetWidthSteps = 6;
