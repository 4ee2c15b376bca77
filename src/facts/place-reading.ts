import type { LightSourceName, ShareBox } from './sharp-reading.ts';

/**
 * Why a place cannot be told. Of the frame or of what it is held against: `too-small`, `no-structure` (nothing stands out of
 * the noise), `one-direction` (only stripes one way: along them nothing can be told). Of both together:
 * `other-orientation` (one upright, one lying), `other-picture` (nothing of the one is found in the other), `repeating`
 * (they fit in several places equally well). Of the reference: `reference-unread` (its file cannot be read, or is not here).
 */
export const noPlaceReasons = [
  'too-small',
  'no-structure',
  'one-direction',
  'other-orientation',
  'other-picture',
  'repeating',
  'reference-unread',
] as const;
export type NoPlaceReason = (typeof noPlaceReasons)[number];

/**
 * Where the subject lies in the frame against where it lies in the reference. Everything in pixels of the full-size
 * frame as it is seen; a reference of another size counts as if it filled the frame.
 */
export interface PlaceShift {
  /** To the right and down, of the point {@link at}. */
  readonly rightPx: number;
  readonly downPx: number;
  /** Clockwise as one sees it, degrees. */
  readonly clockwiseDegrees: number;
  /** Larger is positive, per cent. */
  readonly largerPercent: number;
  /** Standard deviations of the above; of the shift, along the worse direction. */
  readonly errorPx: number;
  readonly errorDegrees: number;
  readonly errorPercent: number;
  /** Point of the reference that the shift is told of, shares of the frame: the middle of the subject, or of the frame. */
  readonly at: { readonly x: number; readonly y: number };
  /** Width of the full-size frame that the pixels are of; left out in readings of earlier stations. */
  readonly fullWidthPx?: number;
  /** Correlation of the two where they were laid on each other, -1 … 1. */
  readonly likeness: number;
  /** 0 … 1: how far one can rely on it, by {@link likeness} and by how much of the reference is in the frame. */
  readonly confidence: number;
  /**
   * A part of the picture that moved against all the rest, where the whole was laid on the whole; null where none did, or
   * where only the subject counted.
   */
  readonly part: MovedPart | null;
  /** A part of the reference that is not found again, about, shares of it: covered, or gone. Null as {@link part} is. */
  readonly lost: ShareBox | null;
  /**
   * A part where light differs, about, shares of the reference, though nothing with an edge was found to be lost or moved:
   * something smooth is gone, moved or new. Null where there is none.
   */
  readonly changed: ShareBox | null;
}

/** A part that moved against the rest of the picture, px of the full-size frame. */
export interface MovedPart {
  readonly rightPx: number;
  readonly downPx: number;
  readonly errorPx: number;
  /** Where it was, about, shares of the reference. */
  readonly box: ShareBox;
}

/** What stands before a plain backdrop. */
export interface SubjectBox {
  /** Its bounds, shares of the upright frame. Where it is cut by the frame, that edge is 0 or 1. */
  readonly box: ShareBox;
  /** How much of the frame it fills: the larger of its width and its height, as a share of the frame's, %. */
  readonly fillPercent: number;
  /** Free room beside it, % of the frame's width (left, right) and height (top, bottom). */
  readonly marginsPercent: ShareBox;
}

/** Why no subject box can be told. */
export const noSubjectReasons = ['too-small', 'not-plain', 'empty'] as const;
export type NoSubjectReason = (typeof noSubjectReasons)[number];

export interface PlaceReading {
  readonly source: LightSourceName;
  /** Against the reference; null where there is none. */
  readonly shift: PlaceShift | { readonly unknown: NoPlaceReason } | null;
  readonly subject: SubjectBox | { readonly unknown: NoSubjectReason };
}
