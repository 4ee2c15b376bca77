import { movedPx, risePerMovedPx } from './moved-edge.ts';
import type { EdgeReading } from './read-edge.ts';

/** A long movement, told by edges that lie aslant of it. */
export interface MovementFan {
  /** Way of the movement, degrees from x towards y, 0 … 180. */
  readonly directionDegrees: number;
  readonly lengthPx: number;
  /** 10-90 % rise of edges along it, px. */
  readonly stillPx: number;
}

const degree = Math.PI / 180;
/** Edges whose normal is as near as this to level with the movement lie along it, and stay as they are. */
const alongSine = Math.sin(4 * degree);
/** As wide as this sharp share of the edges along it they are by themselves. */
const stillShare = 0.15;
/** Edges that are to be there along it, and aslant of it. */
const alongMin = 2;
const aslantMin = 10;
/** Lengths that are tried, px, each by so much longer than the one before. A shorter one is told by `blurKind`. */
const lengths = { fromPx: 15, toPx: 160, step: 1.08 } as const;
/** An edge shows a movement that makes it so many times as wide as one along it; so many are to be there. */
const seenTimes = 2;
const seenMin = 8;
/** As wide as the movement leaves it: within this share. Far narrower: below this share. */
const fits = 0.2;
const denies = 0.63;
/** Bins of the sine of an edge to the movement, two to the octave: a row of them is a fan, one alone is a soft thing. */
const bins = 8;
const fullBin = 4;
/** Some edges are read wrong, and lines narrower than the movement look no wider than themselves. */
const deniedShare = 0.05;
const deniedWeight = 6;
/** Stills of photographs and of the virtual set reach 0.1, movements of 25 px and more 1.7 to 5.6. */
const scoreMin = 1.5;
const fittingMin = 12;

/**
 * Edges along a long movement stay sharp, and those across it can be read no more; but the further an edge lies off its way
 * the wider it is, by 0.8 L |sin δ| beside what the lens does, and so few degrees off it is still narrow enough to be read.
 * Nothing else opens edges like a fan: where one direction and one length say how wide most edges are, over a row of angles,
 * and hardly any edge is sharper, that is a movement. What is wider than it says stands out of focus besides, or is a
 * soft thing.
 */
export function movementFan(edges: readonly EdgeReading[]): MovementFan | null {
  let best: Candidate | null = null;
  for (let normalDegrees = 0; normalDegrees < 180; normalDegrees++) {
    const fan = fanAbout(edges, normalDegrees);
    const found = fan === null ? null : bestLength(fan);
    if (found !== null && (best === null || found.score > best.score)) best = found;
  }
  if (best === null || best.score < scoreMin) return null;
  const { normalDegrees, stillPx, aslant } = best.fan;
  const fitting = aslant.flatMap(({ movedPx }) => (isFitting(movedPx, best.lengthPx) ? [movedPx] : []));
  if (fitting.length < fittingMin) return null;
  const middle = fitting.sort((a, b) => a - b)[fitting.length >> 1] ?? best.lengthPx;
  return { directionDegrees: (normalDegrees + 90) % 180, lengthPx: middle, stillPx };
}

/** Edges as they lie to a movement along which they have this normal. */
interface Fan {
  readonly normalDegrees: number;
  readonly stillPx: number;
  readonly aslant: readonly AslantEdge[];
}

interface AslantEdge {
  /** Of its angle to the movement's way, 0 … 1. */
  readonly sine: number;
  readonly bin: number;
  /** How far it was moved, if it was moved that way, px. */
  readonly movedPx: number;
}

interface Candidate {
  readonly fan: Fan;
  readonly lengthPx: number;
  readonly score: number;
}

function fanAbout(edges: readonly EdgeReading[], normalDegrees: number): Fan | null {
  const along: number[] = [];
  const aslant: { sine: number; widthPx: number }[] = [];
  for (const { angle, widthPx } of edges) {
    const sine = Math.abs(Math.sin(angle - normalDegrees * degree));
    if (sine < alongSine) along.push(widthPx);
    else aslant.push({ sine, widthPx });
  }
  if (along.length < alongMin || aslant.length < aslantMin) return null;
  const stillPx = along.sort((a, b) => a - b)[Math.floor(along.length * stillShare)] ?? 0;
  return {
    normalDegrees,
    stillPx,
    aslant: aslant.map(({ sine, widthPx }) => ({
      sine,
      bin: Math.min(bins - 1, Math.floor(2 * Math.log2(sine / alongSine))),
      movedPx: movedPx(widthPx, stillPx, sine),
    })),
  };
}

/** The length that says most of the edges. */
function bestLength(fan: Fan): Candidate | null {
  let best: Candidate | null = null;
  for (let lengthPx: number = lengths.fromPx; lengthPx <= lengths.toPx; lengthPx *= lengths.step) {
    const score = scoreOf(fan, lengthPx);
    if (best === null || score > best.score) best = { fan, lengthPx, score };
  }
  return best;
}

const byBin = new Int32Array(bins);

/** How full the row of angles is, by the share of edges that fit, less what is far sharper; 0 where too few are there. */
function scoreOf({ stillPx, aslant }: Fan, lengthPx: number): number {
  const sineMin = (seenTimes * stillPx) / (risePerMovedPx * lengthPx);
  byBin.fill(0);
  let [seen, fitting, denied] = [0, 0, 0];
  for (const { sine, bin, movedPx } of aslant) {
    if (sine <= sineMin) continue;
    seen++;
    if (movedPx < denies * lengthPx) denied++;
    if (!isFitting(movedPx, lengthPx)) continue;
    fitting++;
    byBin[bin] = (byBin[bin] ?? 0) + 1;
  }
  if (seen < seenMin) return 0;
  const row = byBin.reduce((sum, count) => sum + Math.min(1, count / fullBin), 0);
  return (row * fitting) / seen - deniedWeight * Math.max(0, denied / seen - deniedShare);
}

function isFitting(movedPx: number, lengthPx: number): boolean {
  return Math.abs(movedPx / lengthPx - 1) < fits;
}
