/** Where words will stand in a delivered picture. */
export const copySpaceSides = ['top', 'bottom', 'left', 'right'] as const;
export type CopySpaceSide = (typeof copySpaceSides)[number];

/** A part of the delivered picture that is kept free for words. */
export interface CopySpace {
  readonly side: CopySpaceSide;
  /** Of the height for `top` and `bottom`, else of the width, %. */
  readonly sharePercent: number;
}

/** What is kept free where only a side was said: a third (common practice, no source). */
export const copySpaceShareUsual = 100 / 3;
