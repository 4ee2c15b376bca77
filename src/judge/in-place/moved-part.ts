import type { MovedPart, ShareBox } from '../../facts/index.ts';
import { middle } from '../exposed/light-map.ts';
import { warpPlaces } from '../kernels/warp-plane.ts';
import { align, correlationOf } from './align.ts';
import { atLevel, type MadePair, makePair, type RawPair } from './level-pair.ts';
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

/** Two pictures laid on each other as a whole. */
export interface LaidPair {
  /** The finest first. */
  readonly pairs: readonly RawPair[];
  /** From places of the reference's plane to those of the frame's. */
  readonly whole: Similarity;
}

/**
 * The largest part of the picture that has moved against all the rest: a ware that was pushed before a background that holds
 * still. Null where nothing has. In px of the frame's plane.
 */
export function findMovedPart({ pairs, whole }: LaidPair): MovedPart | null {
  const at = pairs.findIndex(({ own }) => Math.max(own.widthPx, own.heightPx) <= fineEdgePx);
  const [rawFine, rawCoarse] = [pairs[at], pairs[at + 1]];
  if (rawFine === undefined || rawCoarse === undefined) return null;
  const [fine, coarse] = [makePair(rawFine, null), makePair(rawCoarse, null)];
  const finding: Finding = {
    fine,
    coarse,
    wholeFine: atLevel(whole, rawFine.ownStep, rawFine.otherStep),
    wholeCoarse: atLevel(whole, rawCoarse.ownStep, rawCoarse.otherStep),
  };
  const blocks = boxesOf(fine).flatMap((box) => blockOf(finding, box));
  const group = largestGroup(blocks);
  if (group === null) return null;
  const step = rawFine.otherStep;
  return {
    rightPx: step * middle(group.map(({ x }) => x)),
    downPx: step * middle(group.map(({ y }) => y)),
    errorPx: (step * middle(group.map(({ errorPx }) => errorPx))) / Math.sqrt(group.length / 2),
    box: {
      left: Math.min(...group.map(({ box }) => box.left)),
      top: Math.min(...group.map(({ box }) => box.top)),
      right: Math.max(...group.map(({ box }) => box.right)),
      bottom: Math.max(...group.map(({ box }) => box.bottom)),
    },
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

/** How a part lies against the whole; nothing where it is not found again. */
function blockOf({ fine, coarse, wholeFine, wholeCoarse }: Finding, box: ShareBox): Block[] {
  const finePlaces = placesIn(fine, box);
  const coarsePlaces = placesIn(coarse, box);
  if (finePlaces.length < blockPlacesMin || coarsePlaces.length < blockPlacesMin / 2) return [];
  const start = nearestFit({ ...coarse, places: coarsePlaces }, wholeCoarse);
  if (start === null) return [];
  const found = align(
    { ...fine, places: finePlaces },
    after(toFiner(2), after(start, inverseOf(toFiner(2)))),
    -1,
  );
  if (found === null || found.likeness < likenessMin) return [];
  const point: Point = {
    x: ((box.left + box.right) / 2) * fine.reference.widthPx - 0.5,
    y: ((box.top + box.bottom) / 2) * fine.reference.heightPx - 0.5,
  };
  const [own, rest] = [applyTo(found.similarity, point), applyTo(wholeFine, point)];
  return [{ box, x: own.x - rest.x, y: own.y - rest.y, errorPx: found.errorPx }];
}

/** Places of structure within a box, at most so many, evenly. */
function placesIn({ places, reference: { widthPx, heightPx } }: MadePair, box: ShareBox): Int32Array {
  const inside = places.filter((place) => {
    const x = (place % widthPx) / widthPx;
    const y = Math.floor(place / widthPx) / heightPx;
    return x >= box.left && x < box.right && y >= box.top && y < box.bottom;
  });
  const step = Math.ceil(inside.length / blockPlacesMax);
  return step <= 1 ? inside : inside.filter((_, at) => at % step === 0);
}

/** Where the part fits at the coarse size: where the whole lies, else the likeliest place within reach. */
function nearestFit(pair: MadePair, whole: Similarity): Similarity | null {
  const likeness = (x: number, y: number): number => {
    const { re, im, tx, ty } = whole;
    const { frame, reference, places } = pair;
    const warped = new Float32Array(places.length);
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
  let best = { x: 0, y: 0, like: likeness(0, 0) };
  if (best.like < likenessNear) {
    for (let y = -reachPx; y <= reachPx; y++) {
      for (let x = -reachPx; x <= reachPx; x++) {
        const like = likeness(x, y);
        if (like > best.like) best = { x, y, like };
      }
    }
  }
  return best.like < likenessMin ? null : { ...whole, tx: whole.tx + best.x, ty: whole.ty + best.y };
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
