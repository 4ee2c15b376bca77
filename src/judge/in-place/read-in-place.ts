import type { PlaceReading, ShareBox } from '../../facts/index.ts';
import type { PlacePlane } from './place-plane.ts';
import { registerPlace } from './register.ts';
import { readSubject } from './subject-box.ts';

/** What a frame is held against. */
export interface PlaceReference {
  readonly plane: PlacePlane;
  /**
   * The part of it that counts, shares of the upright picture. Null: the subject where it stands before a plain backdrop,
   * else all of it.
   */
  readonly region: ShareBox | null;
}

/**
 * Reads where the subject lies, and how far from where it lies in the reference. Of the same source both are exact; a
 * preview or a finished picture may have been put right for the lens, so that it fits a raw less well towards the corners.
 * Never throws; both planes are only read.
 */
export function readInPlace(plane: PlacePlane, reference: PlaceReference | null): PlaceReading {
  return {
    source: plane.source,
    shift:
      reference === null
        ? null
        : registerPlace(plane, reference.plane, reference.region ?? subjectOf(reference.plane)),
    subject: readSubject(plane),
  };
}

function subjectOf(plane: PlacePlane): ShareBox | null {
  const subject = readSubject(plane);
  return 'unknown' in subject ? null : subject.box;
}
