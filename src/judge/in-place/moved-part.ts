import type { MovedPart, ShareBox } from '../../facts/index.ts';
import { middle } from '../exposed/light-map.ts';
import { warpPlaces } from '../kernels/warp-plane.ts';
import { align, correlationOf } from './align.ts';
import { atLevel, type MadePair, type RawPair } from './level-pair.ts';
import { after, applyTo, inverseOf, type Point, type Similarity, toFiner } from './similarity.ts';

/** Sizes that parts are looked at in, px of the longer edge: the coarse one to find them, the fine one to measure. */
const fineEdgePx = 520;
/** A part is a square of this share of the longer edge; the next begins half of it further on. */
const blockShare = 1 / 8;
/** With less structure in it a part is not told from its neighbours. */
const blockPlacesMin = 60;
const blockPlacesMax = 600;
/** So like a part has to be to be found again, and so like that it need not be looked for further away. */
const likenessMin = 0.6;
const likenessNear = 0.75;
/** How far away a part is looked for, px of the coarse size. */
const reachPx = 12;
/** Parts that moved alike belong together, px of the fine size; what moved less than this has not. */
const alikePx = 0.4;
const stillPx = 0.35;
/** Fewer that moved alike are chance: three of them overlap in a square and a half. */
const groupMin = 3;

interface Block {
  readonly box: ShareBox;
  /** Shift against the rest, px of the fine size of the frame. */
  readonly x: number;
  readonly y: number;
  readonly errorPx: number;
}

/** Less like the reference than this at its own place, a part that is found nowhere else is lost. */
const lostBelow = 0.5;
/** Fewer that touch are a reflection or a shadow; and of those looked for so many have to be found, or noise hides them. */
const lostMin = 5;
const foundShare = 0.75;

export interface FoundParts {
  readonly part: MovedPart | null;
  /** Shares of the reference's plane. */
  readonly lost: ShareBox | null;
}

/** Two pictures laid on each other as a whole. */
export interface LaidPair {
  /** The finest first. */
  readonly pairs: readonly RawPair[];
  /** From places of the reference's plane to those of the frame's. */
  readonly whole: Similarity;
  /** Makes one of `pairs` even, all of the reference counting. */
  readonly made: (pair: RawPair) => MadePair;
}

/**
 * The largest part of the picture that has moved against all the rest: a ware that was pushed before a background that holds
 * still. In px of the frame's plane. And the largest part of the reference that is not found again: covered, or gone. Null
 * where there is none.
 */
export function findParts({ pairs, whole, made }: LaidPair): FoundParts {
  const at = pairs.findIndex(({ own }) => Math.max(own.widthPx, own.heightPx) <= fineEdgePx);
  const [rawFine, rawCoarse] = [pairs[at], pairs[at + 1]];
  if (rawFine === undefined || rawCoarse === undefined) return { part: null, lost: null };
  const [fine, coarse] = [made(rawFine), made(rawCoarse)];
  const finding: Finding = {
    fine,
    coarse,
    wholeFine: atLevel(whole, rawFine.ownStep, rawFine.otherStep),
    wholeCoarse: atLevel(whole, rawCoarse.ownStep, rawCoarse.otherStep),
  };
  const looked = boxesOf(fine).map((box) => blockOf(finding, box));
  const blocks = looked.filter((block) => block !== null && 'x' in block);
  const lost = looked.filter((block) => block !== null && 'lost' in block).map((block) => block.lost);
  return { part: partOf(blocks, rawFine.otherStep), lost: largestLost(lost, blocks.length) };
}

function partOf(blocks: readonly Block[], step: number): MovedPart | null {
  const group = largestGroup(blocks);
  if (group === null) return null;
  return {
    rightPx: step * middle(group.map(({ x }) => x)),
    downPx: step * middle(group.map(({ y }) => y)),
    errorPx: (step * middle(group.map(({ errorPx }) => errorPx))) / Math.sqrt(group.length / 2),
    box: around(group.map(({ box }) => box)),
  };
}

function around(boxes: readonly ShareBox[]): ShareBox {
  return {
    left: Math.min(...boxes.map(({ left }) => left)),
    top: Math.min(...boxes.map(({ top }) => top)),
    right: Math.max(...boxes.map(({ right }) => right)),
    bottom: Math.max(...boxes.map(({ bottom }) => bottom)),
  };
}

interface Finding {
  readonly fine: MadePair;
  readonly coarse: MadePair;
  readonly wholeFine: Similarity;
  readonly wholeCoarse: Similarity;
}

function boxesOf({ reference: { widthPx, heightPx } }: MadePair): readonly ShareBox[] {
  const edge = blockShare * Math.max(widthPx, heightPx);
  const [across, down] = [Math.floor((2 * widthPx) / edge) - 1, Math.floor((2 * heightPx) / edge) - 1];
  return Array.from({ length: Math.max(0, across * down) }, (_, at) => {
    const left = ((at % across) * edge) / 2 / widthPx;
    const top = (Math.floor(at / across) * edge) / 2 / heightPx;
    return { left, top, right: left + edge / widthPx, bottom: top + edge / heightPx };
  });
}

/** How a part lies against the whole; null where that cannot be told. */
function blockOf(
  { fine, coarse, wholeFine, wholeCoarse }: Finding,
  box: ShareBox,
): Block | { readonly lost: ShareBox } | null {
  const finePlaces = placesIn(fine, box);
  const coarsePlaces = placesIn(coarse, box);
  if (finePlaces.length < blockPlacesMin || coarsePlaces.length < blockPlacesMin / 2) return null;
  const start = nearestFit({ ...coarse, places: coarsePlaces }, wholeCoarse);
  if ('lost' in start) return start.lost && isWithin(fine, wholeFine, box) ? { lost: box } : null;
  const found = align(
    { ...fine, places: finePlaces },
    after(toFiner(2), after(start.at, inverseOf(toFiner(2)))),
    -1,
  );
  if (found === null || found.likeness < likenessMin) return null;
  const point: Point = {
    x: ((box.left + box.right) / 2) * fine.reference.widthPx - 0.5,
    y: ((box.top + box.bottom) / 2) * fine.reference.heightPx - 0.5,
  };
  const [own, rest] = [applyTo(found.similarity, point), applyTo(wholeFine, point)];
  return { box, x: own.x - rest.x, y: own.y - rest.y, errorPx: found.errorPx };
}

/** Places of structure within a box, at most so many, evenly. */
function placesIn({ places, reference: { widthPx, heightPx } }: MadePair, box: ShareBox): Int32Array {
  // They lie row by row: those of the rows are one piece of them.
  const from = firstAt(places, Math.ceil(box.top * heightPx) * widthPx);
  const to = firstAt(places, Math.ceil(box.bottom * heightPx) * widthPx);
  const inside = places.subarray(from, to).filter((place) => {
    const x = (place % widthPx) / widthPx;
    return x >= box.left && x < box.right;
  });
  const step = Math.ceil(inside.length / blockPlacesMax);
  return step <= 1 ? inside : inside.filter((_, at) => at % step === 0);
}

/** Index of the first place that is no smaller, by halving. */
function firstAt(places: Int32Array, least: number): number {
  let [low, high] = [0, places.length];
  while (low < high) {
    const middleAt = (low + high) >> 1;
    if ((places[middleAt] ?? 0) < least) low = middleAt + 1;
    else high = middleAt;
  }
  return low;
}

/** Where the part fits at the coarse size: where the whole lies, else the likeliest place within reach. */
function nearestFit(
  pair: MadePair,
  whole: Similarity,
): { readonly at: Similarity } | { readonly lost: boolean } {
  const { re, im, tx, ty } = whole;
  const { frame, reference, places } = pair;
  const warped = new Float32Array(places.length);
  const likeness = (x: number, y: number): number => {
    warpPlaces(
      frame.data,
      frame.widthPx,
      frame.heightPx,
      places,
      reference.widthPx,
      re,
      im,
      tx + x,
      ty + y,
      warped,
    );
    return correlationOf(reference.data, places, warped).likeness;
  };
  const still = likeness(0, 0);
  let best = { x: 0, y: 0, like: still };
  if (best.like < likenessNear) {
    for (let y = -reachPx; y <= reachPx; y++) {
      for (let x = -reachPx; x <= reachPx; x++) {
        const like = likeness(x, y);
        if (like > best.like) best = { x, y, like };
      }
    }
  }
  if (best.like < likenessMin) return { lost: still < lostBelow };
  return { at: { ...whole, tx: whole.tx + best.x, ty: whole.ty + best.y } };
}

/** The most parts that moved alike. */
function largestGroup(blocks: readonly Block[]): readonly Block[] | null {
  const moved = blocks.filter(({ x, y, errorPx }) => Math.hypot(x, y) > Math.max(stillPx, 4 * errorPx));
  const groups = moved.map((block) =>
    moved.filter(({ x, y }) => Math.hypot(x - block.x, y - block.y) <= alikePx),
  );
  const largest = groups.reduce<readonly Block[]>(
    (most, group) => (group.length > most.length ? group : most),
    [],
  );
  return largest.length < groupMin ? null : largest;
}

/** Whether the frame holds all of the part's place: what lies beyond its border is not lost. */
function isWithin({ frame, reference }: MadePair, whole: Similarity, box: ShareBox): boolean {
  const corners = [box.left, box.right].flatMap((x) => [box.top, box.bottom].map((y) => ({ x, y })));
  return corners.every(({ x, y }) => {
    const at = applyTo(whole, { x: x * reference.widthPx - 0.5, y: y * reference.heightPx - 0.5 });
    return at.x > -2 && at.y > -2 && at.x < frame.widthPx + 1 && at.y < frame.heightPx + 1;
  });
}

/** The most lost parts that touch each other. */
function largestLost(lost: readonly ShareBox[], found: number): ShareBox | null {
  if (found < foundShare * (found + lost.length)) return null;
  const touches = (a: ShareBox, b: ShareBox): boolean =>
    a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
  let rest = lost;
  let largest: readonly ShareBox[] = [];
  while (rest.length > 0) {
    let group: readonly ShareBox[] = rest.slice(0, 1);
    for (let before = 0; before < group.length; ) {
      before = group.length;
      const known = group;
      group = rest.filter((box) => known.some((each) => touches(each, box)));
    }
    const taken = group;
    rest = rest.filter((box) => !taken.includes(box));
    if (group.length > largest.length) largest = group;
  }
  return largest.length < lostMin ? null : around(largest);
}
