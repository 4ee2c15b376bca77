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
    const found = bestAlong(edges, normalDegrees);
    if (found !== null && (best === null || found.score > best.score)) best = found;
  }
  if (best === null || best.score < scoreMin || best.fitting < fittingMin) return null;
  const { normalDegrees, lengthPx, stillPx } = best;
  return { directionDegrees: (normalDegrees + 90) % 180, lengthPx, stillPx };
}

interface Candidate {
  /** Direction across the edges that lie along the movement. */
  readonly normalDegrees: number;
  readonly lengthPx: number;
  readonly stillPx: number;
  readonly score: number;
  readonly fitting: number;
}

/** The length that says most of edges, of a movement along which edges have this normal. */
function bestAlong(edges: readonly EdgeReading[], normalDegrees: number): Candidate | null {
  const normal = normalDegrees * degree;
  const along: number[] = [];
  const sines: number[] = [];
  const widths: number[] = [];
  for (const { angle, widthPx } of edges) {
    const sine = Math.abs(Math.sin(angle - normal));
    if (sine < alongSine) along.push(widthPx);
    else {
      sines.push(sine);
      widths.push(widthPx);
    }
  }
  if (along.length < alongMin || sines.length < aslantMin) return null;
  const stillPx = along.sort((a, b) => a - b)[Math.floor(along.length * 0.15)] ?? 0;
  const told = sines.map((sine, index) => movedPx(widths[index] ?? 0, stillPx, sine));
  let best: Candidate | null = null;
  for (let lengthPx: number = lengths.fromPx; lengthPx <= lengths.toPx; lengthPx *= lengths.step) {
    const found = scoreOf(told, sines, lengthPx, stillPx);
    if (found !== null && (best === null || found.score > best.score)) {
      best = { normalDegrees, stillPx, ...found };
    }
  }
  return best;
}

function scoreOf(
  told: readonly number[],
  sines: readonly number[],
  lengthPx: number,
  stillPx: number,
): Pick<Candidate, 'score' | 'fitting' | 'lengthPx'> | null {
  const sineMin = (seenTimes * stillPx) / (risePerMovedPx * lengthPx);
  const byBin = new Int32Array(bins);
  const fitting: number[] = [];
  let [seen, denied] = [0, 0];
  sines.forEach((sine, index) => {
    if (sine <= sineMin) return;
    seen++;
    const own = told[index] ?? 0;
    if (own < denies * lengthPx) denied++;
    if (Math.abs(own / lengthPx - 1) >= fits) return;
    fitting.push(own);
    const bin = Math.min(bins - 1, Math.floor(2 * Math.log2(sine / alongSine)));
    byBin[bin] = (byBin[bin] ?? 0) + 1;
  });
  if (seen < seenMin) return null;
  const row = byBin.reduce((sum, count) => sum + Math.min(1, count / fullBin), 0);
  const score = (row * fitting.length) / seen - deniedWeight * Math.max(0, denied / seen - deniedShare);
  fitting.sort((a, b) => a - b);
  return { score, fitting: fitting.length, lengthPx: fitting[fitting.length >> 1] ?? lengthPx };
}
