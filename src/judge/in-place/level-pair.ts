import type { NoPlaceReason, ShareBox } from '../../facts/index.ts';
import type { LevelPair } from './align.ts';
import { evened, type Level, pyramidOf, type Structure, structureOf } from './level.ts';
import type { PlacePlane } from './place-plane.ts';
import { placesWithStructure, twoWays } from './places.ts';
import { after, inverseOf, type Similarity, toFiner } from './similarity.ts';

/** With fewer places of structure there is nothing to hold on to. */
export const placesMin = 60;
/** Places that count, at most, for one size. */
const placesMax = 60_000;
/** Structure weaker than this against its strength in the other direction says nothing of it. */
const twoWaysMin = 0.01;
/** Weaker structure is not made stronger, stops. */
const evenFloor = 0.03;

/** Two levels of about one scale, with what one of their pixels is in the planes'. */
export interface RawPair {
  readonly own: Level;
  readonly other: Level;
  readonly ownStep: number;
  readonly otherStep: number;
}

/** `ratio`: pixels of the frame's plane for one of the reference's. The finest first. */
export function pairsOf(frame: PlacePlane, reference: PlacePlane, ratio: number): RawPair[] {
  const [own, other] = [pyramidOf(reference), pyramidOf(frame)];
  const finer = Math.round(Math.log2(ratio));
  const [ownFirst, otherFirst] = [Math.max(0, -finer), Math.max(0, finer)];
  return own.slice(ownFirst).flatMap((level, at) => {
    const against = other[otherFirst + at];
    if (against === undefined) return [];
    return [{ own: level, other: against, ownStep: 2 ** (ownFirst + at), otherStep: 2 ** (otherFirst + at) }];
  });
}

export interface MadePair extends LevelPair {
  readonly structure: { readonly own: Structure; readonly other: Structure };
}

export function makePair({ own, other }: RawPair, box: ShareBox | null): MadePair {
  const structure = { own: structureOf(own), other: structureOf(other) };
  const floor = Math.max(evenFloor, 3 * Math.max(structure.own.noise, structure.other.noise));
  const reference = evened(structure.own, floor);
  return {
    reference,
    frame: evened(structure.other, floor),
    places: placesWithStructure(reference, structure.own, box, placesMax),
    structure,
  };
}

export function withoutStructure({ reference, frame, places, structure }: MadePair): NoPlaceReason | null {
  const ofFrame = placesWithStructure(frame, structure.other, null, placesMax);
  if (places.length < placesMin || ofFrame.length < placesMin) return 'no-structure';
  const least = Math.min(twoWays(reference, places), twoWays(frame, ofFrame));
  return least < twoWaysMin ? 'one-direction' : null;
}

/** A similarity of planes as one of levels. */
export function atLevel(similarity: Similarity, ownStep: number, otherStep: number): Similarity {
  return after(inverseOf(toFiner(otherStep)), after(similarity, toFiner(ownStep)));
}
