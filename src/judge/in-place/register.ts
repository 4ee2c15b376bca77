import type { MovedPart, NoPlaceReason, PlaceShift, ShareBox } from '../../facts/index.ts';
import { type Alignment, align } from './align.ts';
import { changedLight } from './changed-light.ts';
import { findCoarse, likenessMin } from './find-coarse.ts';
import {
  atLevel,
  type MadePair,
  makePair,
  pairsOf,
  placesMin,
  type RawPair,
  withoutStructure,
} from './level-pair.ts';
import { findParts } from './moved-part.ts';
import { type PlacePlane, planeToFrame } from './place-plane.ts';
import { after, applyTo, degreesOf, inverseOf, type Similarity, scaleOf, toFiner } from './similarity.ts';
import { apartAtMiddle, squarePx } from './starts.ts';

/** Smaller planes, along the shorter edge, hold too little. */
const edgePxMin = 24;
/** Steps at a finer size that go further than this, px, have lost the way. */
const strayPx = 1.5;
/** Sampling and smoothing leave so much open, px of the plane. */
const planeErrorPx = 0.01;
/** Room about the box that counts, share of it: its edge is the strongest structure there is. */
const boxRoom = 0.08;
/** Edges whose lengths differ by no more than this share lie neither way. */
const squareShare = 0.05;

/**
 * Lays a frame on a reference: shift, turn and size, and how sure. `box`: the part of the reference that counts, shares of
 * its upright frame; null for all of it. Never throws: what cannot be told has its reason.
 *
 * The way: both as light in stops, slow light taken off and contrast made even, so that exposure and look play no part;
 * phase correlation for the shift, and where that does not fit, the spectra's turn and size; then Gauss-Newton steps from
 * coarse to fine.
 */
export function registerPlace(
  frame: PlacePlane,
  reference: PlacePlane,
  box: ShareBox | null,
): PlaceShift | { readonly unknown: NoPlaceReason } {
  const shorter = Math.min(frame.widthPx, frame.heightPx, reference.widthPx, reference.heightPx);
  if (shorter < edgePxMin) return { unknown: 'too-small' };
  if (lies(frame) * lies(reference) < 0) return { unknown: 'other-orientation' };
  const nominal = nominalOf(frame, reference);
  const roomy = box === null ? null : planeBox(withRoom(box), reference);
  const pairs = pairsOf(frame, reference, scaleOf(nominal));
  const coarse = pairs.find(({ own }) => Math.max(own.widthPx, own.heightPx) <= squarePx);
  if (coarse === undefined) return { unknown: 'too-small' };
  const first = pairs.indexOf(coarse);
  const makeOnce = pairMaker(roomy);
  const made = pairs.slice(first).map(makeOnce);
  const judged = made[0];
  if (judged === undefined) return { unknown: 'too-small' };
  const without = withoutStructure(judged);
  if (without !== null) return { unknown: without };
  const start = atLevel(nominal, coarse.ownStep, coarse.otherStep);
  const found = findCoarse(made, start, roomy);
  if (found === null) return { unknown: 'other-picture' };
  if (found === 'repeating') return { unknown: 'repeating' };
  const fine = refine(pairs.slice(0, first), coarse, found, makeOnce);
  const shift = shiftOf(fine, found, { frame, reference, box });
  const changed = changedLight(pairs, fine.similarity);
  // The subject alone is one thing; in a whole picture one may have moved before another.
  if (box !== null) return { ...shift, changed };
  const { part, lost } = findParts({ pairs, whole: fine.similarity, made: makeOnce });
  // What is known by its edges is told by them.
  const isTold = part !== null || lost !== null;
  return { ...shift, part: partOf(part, frame), lost, changed: isTold ? null : changed };
}

/** Makes each pair once: those that the whole is laid by are those that parts are looked for in. */
function pairMaker(box: ShareBox | null): (pair: RawPair) => MadePair {
  const known = new Map<RawPair, MadePair>();
  return (pair) => {
    const made = known.get(pair) ?? makePair(pair, box);
    known.set(pair, made);
    return made;
  };
}

/** 1 lying, -1 upright, 0 about square. */
function lies({ fullWidthPx, fullHeightPx }: PlacePlane): -1 | 0 | 1 {
  if (Math.abs(fullWidthPx - fullHeightPx) <= squareShare * Math.max(fullWidthPx, fullHeightPx)) return 0;
  return fullWidthPx > fullHeightPx ? 1 : -1;
}

/** From the reference's pixels to the frame's where nothing has moved: it fills the frame, middle on middle. */
function fitOf(frame: PlacePlane, reference: PlacePlane): Similarity {
  const across = frame.fullWidthPx / reference.fullWidthPx;
  const down = frame.fullHeightPx / reference.fullHeightPx;
  const re = Math.min(across, down);
  return {
    re,
    im: 0,
    tx: (frame.fullWidthPx - 1) / 2 - (re * (reference.fullWidthPx - 1)) / 2,
    ty: (frame.fullHeightPx - 1) / 2 - (re * (reference.fullHeightPx - 1)) / 2,
  };
}

function nominalOf(frame: PlacePlane, reference: PlacePlane): Similarity {
  return after(inverseOf(planeToFrame(frame)), after(fitOf(frame, reference), planeToFrame(reference)));
}

function withRoom({ left, top, right, bottom }: ShareBox): ShareBox {
  const [x, y] = [boxRoom * (right - left), boxRoom * (bottom - top)];
  return { left: left - x, top: top - y, right: right + x, bottom: bottom + y };
}

/** A box of the full frame as shares of the plane. */
function planeBox({ left, top, right, bottom }: ShareBox, plane: PlacePlane): ShareBox {
  const x = (share: number): number =>
    (share * plane.fullWidthPx - plane.leftPx) / (plane.scalePx * plane.widthPx);
  const y = (share: number): number =>
    (share * plane.fullHeightPx - plane.topPx) / (plane.scalePx * plane.heightPx);
  return { left: x(left), top: y(top), right: x(right), bottom: y(bottom) };
}

/** In the planes' pixels. */
interface Refined {
  readonly similarity: Similarity;
  readonly errorPx: number;
  readonly errorTurn: number;
}

/** On through the finer sizes, as long as they know more. `pairs`: the finer ones, the finest first. */
function refine(
  pairs: readonly RawPair[],
  coarse: RawPair,
  found: Alignment,
  made: (pair: RawPair) => MadePair,
): Refined {
  let best = inPlanes(found, coarse);
  for (const pair of [...pairs].reverse()) {
    const level = made(pair);
    const start = atLevel(best.similarity, pair.ownStep, pair.otherStep);
    const next = level.places.length < placesMin ? null : align(level, start, -1);
    if (next === null || apartAtMiddle(next.similarity, start, level.reference) > strayPx) break;
    const finer = inPlanes(next, pair);
    if (finer.errorPx > best.errorPx) break;
    best = finer;
  }
  return best;
}

function inPlanes({ similarity, errorPx, errorTurn }: Alignment, { ownStep, otherStep }: RawPair): Refined {
  return {
    similarity: after(toFiner(otherStep), after(similarity, inverseOf(toFiner(ownStep)))),
    errorPx: errorPx * otherStep,
    errorTurn,
  };
}

interface Told {
  readonly frame: PlacePlane;
  readonly reference: PlacePlane;
  readonly box: ShareBox | null;
}

/** The finding in pixels of the full-size frame. */
function shiftOf(
  fine: Refined,
  { likeness, overlap }: Alignment,
  { frame, reference, box }: Told,
): PlaceShift {
  const fit = fitOf(frame, reference);
  const whole = after(planeToFrame(frame), after(fine.similarity, inverseOf(planeToFrame(reference))));
  // What the frame does to the reference that fills it.
  const moved = after(whole, inverseOf(fit));
  const middle = {
    x: (((box?.left ?? 0) + (box?.right ?? 1)) / 2) * reference.fullWidthPx - 0.5,
    y: (((box?.top ?? 0) + (box?.bottom ?? 1)) / 2) * reference.fullHeightPx - 0.5,
  };
  const from = applyTo(fit, middle);
  const to = applyTo(moved, from);
  const errorPx = Math.hypot(fine.errorPx, planeErrorPx) * frame.scalePx;
  return {
    rightPx: to.x - from.x,
    downPx: to.y - from.y,
    clockwiseDegrees: degreesOf(moved),
    largerPercent: 100 * (scaleOf(moved) - 1),
    errorPx,
    errorDegrees: (fine.errorTurn * 180) / Math.PI,
    errorPercent: 100 * fine.errorTurn,
    at: { x: (from.x + 0.5) / frame.fullWidthPx, y: (from.y + 0.5) / frame.fullHeightPx },
    fullWidthPx: frame.fullWidthPx,
    likeness,
    confidence: confidenceOf(likeness, overlap),
    part: null,
    lost: null,
    changed: null,
  };
}

/** From px of the plane to those of the full-size frame. */
function partOf(part: MovedPart | null, { scalePx }: PlacePlane): MovedPart | null {
  if (part === null) return null;
  const { rightPx, downPx, errorPx } = part;
  return { ...part, rightPx: scalePx * rightPx, downPx: scalePx * downPx, errorPx: scalePx * errorPx };
}

/** From nothing at the least likeness to full at 0.9; less where not much of the reference is in the frame. */
function confidenceOf(likeness: number, overlap: number): number {
  const like = Math.min(1, Math.max(0, (likeness - likenessMin) / (0.9 - likenessMin)));
  return like * Math.min(1, overlap / 0.8);
}
