import type { ShareBox } from '../../facts/index.ts';
import { type Alignment, align } from './align.ts';
import { atLevel, type MadePair } from './level-pair.ts';
import { after, inverseOf, type Similarity, toFiner } from './similarity.ts';
import { apartAtMiddle, referenceSpectrum, shiftedStarts, turnedStarts } from './starts.ts';

/** Two pictures of one thing reach this; photographs of five things, each laid on each, stayed below a fifth. */
export const likenessMin = 0.4;
/** A start that has not come so far after some steps leads nowhere. */
const likenessTried = 0.2;
/** So like is what has been found for certain: other turns and sizes need not be tried. */
const likenessSure = 0.7;
/** Another place that fits nearly as well makes both unsure. */
const likenessApart = 0.04;
const apartPx = 4;
/** Shifts tried without any turn: a pattern that repeats fits in several. */
const shiftsTried = 3;
/** Less of the reference in the frame than this is no proof. */
const overlapMin = 0.3;

/** The best of all starts at the size of the square, or why there is none. */
export function findCoarse(
  made: readonly MadePair[],
  nominal: Similarity,
  box: ShareBox | null,
): Alignment | 'repeating' | null {
  const [judged] = made;
  if (judged === undefined) return null;
  const pair = { ...judged, spectrum: referenceSpectrum(judged.reference, box) };
  const climb = (start: Similarity): Alignment[] => {
    const found = climbTo(made, start);
    return found === null || found.overlap < overlapMin ? [] : [found];
  };
  const isNew = (start: Similarity, at: number, all: readonly Similarity[]): boolean =>
    !all.slice(0, at).some((other) => apartAtMiddle(start, other, judged.reference) < apartPx / 2);
  const tried = [nominal, ...shiftedStarts(pair, nominal, shiftsTried)].filter(isNew).flatMap(climb);
  if (!tried.some(({ likeness }) => likeness >= likenessSure)) {
    const turned = turnedStarts(pair, nominal).flatMap((start) => shiftedStarts(pair, start, 1));
    tried.push(...turned.flatMap(climb));
  }
  tried.sort((a, b) => b.likeness - a.likeness);
  const [best] = tried;
  if (best === undefined || best.likeness < likenessMin) return null;
  const rival = tried.some(
    ({ similarity, likeness }) =>
      likeness > best.likeness - likenessApart &&
      apartAtMiddle(similarity, best.similarity, judged.reference) > apartPx,
  );
  return rival ? 'repeating' : best;
}

/** From the coarsest size up to the square's: `start` is of the square's. */
function climbTo(made: readonly MadePair[], start: Similarity): Alignment | null {
  let similarity = start;
  for (let at = made.length - 1; at > 0; at--) {
    const pair = made[at];
    if (pair === undefined) continue;
    const step = 2 ** at;
    const found = align(pair, atLevel(similarity, step, step), likenessTried);
    // A coarse size may hold too little: then the start goes on as it was.
    if (found !== null && found.likeness > likenessMin) {
      similarity = after(toFiner(step), after(found.similarity, inverseOf(toFiner(step))));
    }
  }
  const [last] = made;
  if (last === undefined) return null;
  const found = align(last, similarity, likenessTried);
  // Where the coarse sizes have led astray, the start itself may still fit.
  const plain = similarity === start ? null : align(last, start, likenessTried);
  return plain !== null && plain.likeness > (found?.likeness ?? 0) ? plain : found;
}
