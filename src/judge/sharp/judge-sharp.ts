import type {
  EdgeWidth,
  Finding,
  Judgement,
  ShareBox,
  SharpFigures,
  SharpReference,
  Tolerance,
  Tolerances,
  Verdict,
} from '../../facts/index.ts';
import { judgeLimit, limitsOf } from '../limits.ts';
import { risePerMovedPx } from './moved-edge.ts';

export interface SharpFacts {
  readonly reading: SharpFigures;
  readonly tolerances: Tolerances;
  /** Of the shot's reference frame, or null. */
  readonly reference: SharpReference | null;
  /** What was said of this frame before, or null. */
  readonly previous: Judgement | null;
}

/** What an edge may be wider than the reference's and still count as equal; beyond the other it is worse for certain. */
const widerThanReference = { good: 1.2, bad: 1.6 };
/** However soft the reference: so many times the shot's own limit is bad (common practice, no source). */
const roomMax = 2;

/**
 * The second question: is it sharp where it should be?
 *
 * The rule: the 10-90 % rise at the focus spot against the tolerance; where nobody set one, a reference that was softer
 * than usual widens it, never beyond what is bad by itself. A width much above the reference's is never `good`. No edge to be read is `unknown`. A preview
 * proves nothing: it was sharpened by the camera, so it is `unknown`, or a `doubt` where even so it is soft. A movement that
 * only the rest of the picture shows, and a part that is sharp in the reference and soft here, turn `good` into `doubt`.
 */
export function judgeSharp({ reading, tolerances, reference, previous }: SharpFacts): Verdict {
  const { atSpot, spot, elsewhere } = reading;
  if (atSpot === null) return withoutEdges(reading);
  const figure = { value: widestWay(reading, atSpot), unit: 'px' };
  const compared = comparable(reading, reference);
  const limits = limitsFor(tolerances, compared);
  const widthPx = widestWay(reading, atSpot);
  const own = judgeLimit(widthPx, atSpot.errorPx, limits, previous);
  if (reading.source === 'preview') return preliminary(reading, { ...atSpot, widthPx }, limits);
  const theirs =
    compared === null || reference === null ? null : { ...compared, widthPx: widestWay(reference, compared) };
  const against = theirs === null ? 'good' : judgeAgainst({ ...atSpot, widthPx }, theirs, limits, previous);
  const beside = besideSpot({ reading, tolerances, reference, previous }, atSpot, limits);
  const judgement = own === 'good' && (against !== 'good' || beside.length > 0) ? 'doubt' : own;
  const args = { px: widthPx, limitPx: limits.good, edges: atSpot.edges, snr: atSpot.snr };
  if (judgement === 'good') {
    return {
      judgement,
      findings: [{ code: spot?.teller === 'sharpest' ? 'sharp.good-somewhere' : 'sharp.good', args }],
      figure,
    };
  }
  const softer =
    theirs === null || (own === 'good' && against === 'good')
      ? []
      : besideReference(widthPx, theirs, against);
  const wide = own === 'good' ? [] : [softFinding(reading, args)];
  const aside = elsewhere === null ? [] : [elsewhereFinding(elsewhere, spot, limits)];
  // What was in focus instead says more than that the spot was not.
  const [first, ...rest] = [...(own === 'good' ? [] : aside), ...wide, ...softer, ...beside];
  return { judgement, findings: [first ?? { code: 'sharp.soft', args }, ...rest], figure };
}

/** What speaks against a spot that is sharp by itself. */
function besideSpot(
  { reading, reference, previous }: SharpFacts,
  { widthPx, errorPx }: EdgeWidth,
  limits: Tolerance,
): Finding[] {
  const found: Finding[] = [];
  const { blur, spot } = reading;
  if (blur.kind === 'movement-elsewhere' && !isAlsoMoved(reference, blur)) {
    const moved = Math.hypot(widthPx, riseOf(blur.lengthPx ?? 0));
    if (judgeLimit(moved, errorPx, limits, previous) !== 'good') {
      const args = { degrees: blur.directionDegrees ?? 0, lengthPx: blur.lengthPx ?? 0 };
      found.push({ code: 'sharp.movement-elsewhere', args });
    }
  }
  const part = reference?.softPart ?? null;
  // Where somebody has said what is to be sharp, the rest may be what it likes.
  if (
    part !== null &&
    spot?.teller === 'sharpest' &&
    (part.widthPx === null || judgeLimit(part.widthPx, 0, limits, previous) !== 'good')
  ) {
    const args = { referencePx: part.referencePx, where: whereIn(part) };
    found.push(
      part.widthPx === null
        ? { code: 'sharp.part-unreadable', args }
        : { code: 'sharp.part-softer', args: { ...args, px: part.widthPx } },
    );
  }
  return found;
}

/** Directions and lengths that differ by no more than this are the same; degrees, share. */
const sameMovement = { degrees: 15, share: 0.3 };

/** What looks moved in the reference just so is the scene. */
function isAlsoMoved(reference: SharpReference | null, blur: SharpFigures['blur']): boolean {
  const theirs = reference?.blur;
  if (theirs?.kind !== 'movement-elsewhere') return false;
  const turned = Math.abs((blur.directionDegrees ?? 0) - (theirs.directionDegrees ?? 0));
  const [own, other] = [blur.lengthPx ?? 0, theirs.lengthPx ?? 0];
  return Math.min(turned, 180 - turned) <= sameMovement.degrees && own <= other * (1 + sameMovement.share);
}

/** Side of the picture that a part of it lies at. */
function whereIn({ left, top, right, bottom }: ShareBox): string {
  const [dx, dy] = [(left + right - 1) / 2, (top + bottom - 1) / 2];
  if (Math.abs(dx) >= Math.abs(dy)) return dx < 0 ? 'left' : 'right';
  return dy < 0 ? 'above' : 'below';
}

function withoutEdges({ elsewhere, spot }: SharpFigures): Verdict {
  const atSpot = spot !== null && spot.teller !== 'sharpest';
  const nothing: Finding = { code: atSpot ? 'sharp.no-edge-at-spot' : 'sharp.no-edge', args: {} };
  return {
    judgement: 'unknown',
    findings: elsewhere === null ? [nothing] : [nothing, sharpestLie(elsewhere, spot)],
  };
}

/** The narrowest edge that a picture made smaller can show, pixels of its own. */
const narrowestPx = 2;

/** What is left of a preview's edges once its own coarseness is taken off, by squares. */
function preliminary(
  { samplePx }: SharpFigures,
  { widthPx, errorPx }: EdgeWidth,
  { bad }: Tolerance,
): Verdict {
  const own = Math.sqrt(Math.max(0, widthPx ** 2 - (narrowestPx * samplePx) ** 2));
  const soft = own - errorPx > bad;
  return {
    judgement: soft ? 'doubt' : 'unknown',
    findings: [{ code: soft ? 'sharp.preview-soft' : 'sharp.preview-sharp', args: {} }],
  };
}

/**
 * Edges along a movement stay sharp, and the sharpest speak for a spot: so a movement is judged by the edges across it,
 * which rise over 0.8 of its length more, by squares.
 */
function widestWay({ blur }: Pick<SharpFigures, 'blur'>, { widthPx }: EdgeWidth): number {
  if (blur.kind !== 'movement' || blur.lengthPx === null) return widthPx;
  return Math.hypot(widthPx, riseOf(blur.lengthPx));
}

/** 10-90 % rise that a movement of `lengthPx` makes of a step of light, px. */
function riseOf(lengthPx: number): number {
  return risePerMovedPx * lengthPx;
}

/** Readings of different sources are never held against each other. */
function comparable(reading: SharpFigures, reference: SharpFacts['reference']): EdgeWidth | null {
  return reference !== null && reference.source === reading.source && reading.source !== 'preview'
    ? reference.atSpot
    : null;
}

/** A limit that a person set stands. The usual ones make room for a reference that is softer by nature, at f/22 say. */
function limitsFor(tolerances: Tolerances, reference: EdgeWidth | null): Tolerance {
  const limits = limitsOf(tolerances, 'edgeWidthPx');
  if (reference === null || tolerances.edgeWidthPx !== undefined) return limits;
  return {
    // Never as far as what is bad by itself: a blurred reference must not make blur good.
    good: Math.min(limits.bad, Math.max(limits.good, reference.widthPx * widerThanReference.good)),
    bad: Math.min(roomMax * limits.bad, Math.max(limits.bad, reference.widthPx * widerThanReference.bad)),
  };
}

/** Below this share of what is sharp, edges are as sharp as any: which is sharper says nothing. */
const sharpAnyway = 0.5;

function judgeAgainst(
  { widthPx, errorPx }: EdgeWidth,
  reference: EdgeWidth,
  own: Tolerance,
  previous: Judgement | null,
): 'good' | 'doubt' | 'bad' {
  const theirs = Math.max(reference.widthPx, sharpAnyway * own.good);
  const limits = {
    good: theirs * widerThanReference.good + reference.errorPx,
    bad: theirs * widerThanReference.bad + reference.errorPx,
  };
  return judgeLimit(widthPx, -errorPx, limits, previous);
}

/** What the reference says of a frame that is not good: it was sharper, or is as soft itself. */
function besideReference(
  px: number,
  { widthPx }: EdgeWidth,
  against: 'good' | 'doubt' | 'bad',
): readonly Finding[] {
  const code = against === 'good' ? 'sharp.reference-as-soft' : 'sharp.softer-than-reference';
  return [{ code, args: { px, referencePx: widthPx } }];
}

function softFinding({ blur }: SharpFigures, args: Finding['args']): Finding {
  if (blur.kind === 'movement') {
    return {
      code: 'sharp.moved',
      args: { ...args, degrees: blur.directionDegrees ?? 0, lengthPx: blur.lengthPx ?? 0 },
    };
  }
  return { code: blur.kind === 'focus' ? 'sharp.out-of-focus' : 'sharp.soft', args };
}

/** What is sharper than the spot is not called sharp for that. */
function elsewhereFinding(
  elsewhere: NonNullable<SharpFigures['elsewhere']>,
  spot: SharpFigures['spot'],
  { good }: Tolerance,
): Finding {
  const code = elsewhere.widthPx <= good ? 'sharp.elsewhere' : 'sharp.less-soft-elsewhere';
  return { code, args: sharpestLie(elsewhere, spot).args };
}

/** Where the sharpest edges lie, seen from the spot: nothing is said of the spot itself, which may not be known. */
function sharpestLie(elsewhere: NonNullable<SharpFigures['elsewhere']>, spot: SharpFigures['spot']): Finding {
  const dx = (elsewhere.left + elsewhere.right - (spot?.left ?? 0.5) - (spot?.right ?? 0.5)) / 2;
  const dy = (elsewhere.top + elsewhere.bottom - (spot?.top ?? 0.5) - (spot?.bottom ?? 0.5)) / 2;
  const across = Math.abs(dx) >= Math.abs(dy);
  const where = across ? (dx < 0 ? 'left' : 'right') : dy < 0 ? 'above' : 'below';
  return { code: 'sharp.sharpest-lie', args: { px: elsewhere.widthPx, where } };
}
