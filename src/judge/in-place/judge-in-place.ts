import type {
  Figure,
  Finding,
  Judgement,
  PlaceReading,
  PlaceShift,
  Tolerance,
  Tolerances,
  Verdict,
} from '../../facts/index.ts';
import { gravityOf, heldBound, judgeLimit, limitsOf, worstOf } from '../limits.ts';

export interface InPlaceFacts {
  readonly reading: PlaceReading;
  /**
   * What it is held against: nothing; the frame is the reference itself; a reference that it has not been measured against
   * yet; or one that `reading` was measured against.
   */
  readonly against: 'nothing' | 'itself' | 'not-yet' | 'reference';
  readonly tolerances: Tolerances;
  /** What one pixel of the full-size frame is on the set, from the target's known size or two marked points; or null. */
  readonly mmPerPx: number | null;
  /** How unevenly the light differs from the reference's, median, EV; left out where that is not known. */
  readonly lightSpreadEv?: number;
  /** What was said of this frame before, or null. */
  readonly previous: Judgement | null;
}

/** One thing measured, with how grave it is and how far along its way to the limit. */
interface Weighed {
  readonly judgement: 'good' | 'doubt' | 'bad';
  readonly share: number;
  readonly finding: Finding;
  readonly figure: Figure;
}

/** Below this the two pictures are too unlike for any verdict. */
const confidenceMin = 0.25;

/**
 * The fourth question: does the subject lie where it lies in the reference?
 *
 * The rule: shift, turn and change of size against their tolerances, each with its own error; the worst leads. A limit in
 * millimetres counts where the scale is known. The reference itself is in place by definition. Without a reference, or where the two cannot be laid on each other, it is
 * `unknown` with its reason. A preview may lie a little differently from the whole file, so it is `unknown`, or a `doubt`
 * where even so it is far off.
 */
export function judgeInPlace(facts: InPlaceFacts): Verdict {
  const { shift, source, subject } = facts.reading;
  const { against: held } = facts;
  if (held === 'itself') return { judgement: 'good', findings: [{ code: 'place.is-reference', args: {} }] };
  if (held === 'not-yet') return { judgement: 'unknown', findings: [{ code: 'place.not-yet', args: {} }] };
  if (held === 'nothing' || shift === null) {
    const stands: Finding[] = 'unknown' in subject ? [] : [subjectFinding(subject)];
    return { judgement: 'unknown', findings: [{ code: 'place.no-reference', args: {} }, ...stands] };
  }
  if ('unknown' in shift) {
    return { judgement: 'unknown', findings: [{ code: `place.${shift.unknown}`, args: {} }] };
  }
  const figure = shiftFigure(isOtherLight(facts) ? { ...shift, part: null } : shift);
  const unsure = facts.previous === null ? null : facts.previous === 'unknown';
  if (shift.confidence < heldBound(confidenceMin, unsure)) {
    return { judgement: 'unknown', findings: [{ code: 'place.unsure', args: { px: figure.value } }], figure };
  }
  const against = weigh(facts, shift).filter(({ judgement }) => judgement !== 'good');
  against.sort((a, b) => gravityOf(a.judgement) - gravityOf(b.judgement) || b.share - a.share);
  const [lead, ...rest] = against;
  if (source === 'preview') return preliminary(figure, lead ?? null);
  if (lead === undefined)
    return { judgement: 'good', findings: [goodFinding(shift, figure.value, facts.mmPerPx)], figure };
  return {
    judgement: worstOf(against.map(({ judgement }) => judgement)),
    findings: [lead.finding, ...rest.map(({ finding }) => finding)],
    figure: lead.figure,
  };
}

/** Light that differs so much more in some parts than in others casts other shadows, EV. */
const otherLightEv = 0.08;

function isOtherLight({ lightSpreadEv = 0, previous }: InPlaceFacts): boolean {
  return lightSpreadEv > heldBound(otherLightEv, previous === null ? null : previous === 'bad');
}

/** Of the whole, or of a part that lies further off. */
function shiftFigure({ rightPx, downPx, part }: PlaceShift): Figure {
  const whole = Math.hypot(rightPx, downPx);
  const own = part === null ? 0 : Math.hypot(rightPx + part.rightPx, downPx + part.downPx);
  return { value: Math.max(whole, own), unit: 'px' };
}

function goodFinding(shift: PlaceShift, px: number, mmPerPx: number | null): Finding {
  return {
    code: 'place.good',
    args: {
      px,
      mm: mmPerPx === null ? 0 : px * mmPerPx,
      degrees: shift.clockwiseDegrees,
      percent: shift.largerPercent,
    },
  };
}

function subjectFinding({ fillPercent, marginsPercent }: SubjectFacts): Finding {
  const { left, top, right, bottom } = marginsPercent;
  return { code: 'place.subject', args: { fillPercent, left, top, right, bottom } };
}

type SubjectFacts = Exclude<PlaceReading['subject'], { unknown: unknown }>;

function weigh(facts: InPlaceFacts, shift: PlaceShift): Weighed[] {
  const { tolerances, previous } = facts;
  const { clockwiseDegrees, largerPercent } = shift;
  const weighOne = (
    [value, error, unit]: readonly [number, number, string],
    limits: { readonly good: number; readonly bad: number },
    finding: (limit: number) => Finding,
  ): Weighed => ({
    judgement: judgeLimit(Math.abs(value), error, limits, previous),
    share: Math.abs(value) / Math.max(1e-9, limits.good),
    finding: finding(limits.good),
    figure: { value, unit },
  });
  return [
    ...weighShift(facts, 'place.moved', shift),
    ...partsMoved(facts, shift).map((part) =>
      // Shadows move with the light: what looks like a moved part is no more than a doubt.
      isOtherLight(facts) && part.judgement === 'bad' ? { ...part, judgement: 'doubt' as const } : part,
    ),
    ...partLost(shift),
    // Light that differs unevenly differs everywhere somehow.
    ...(isOtherLight(facts) ? [] : partChanged(shift)),
    weighOne(
      [clockwiseDegrees, shift.errorDegrees, '°'],
      limitsOf(tolerances, 'rotationDeg'),
      (limitDegrees) => ({ code: 'place.turned', args: { degrees: clockwiseDegrees, limitDegrees } }),
    ),
    weighOne(
      [largerPercent, shift.errorPercent, '%'],
      limitsOf(tolerances, 'scalePercent'),
      (limitPercent) => ({ code: 'place.resized', args: { percent: largerPercent, limitPercent } }),
    ),
  ];
}

/**
 * A movement against its limits, said once, by the limit it hurts most. A limit on the set takes the place of the usual one
 * on the picture, not of one that somebody set.
 */
function weighShift(
  { tolerances, mmPerPx, previous }: InPlaceFacts,
  code: 'place.moved' | 'place.part-moved',
  { rightPx, downPx, errorPx }: Pick<PlaceShift, 'rightPx' | 'downPx' | 'errorPx'>,
): Weighed[] {
  const px = Math.hypot(rightPx, downPx);
  const mm = mmPerPx === null ? 0 : px * mmPerPx;
  const weighed = (figure: Figure, error: number, limits: Tolerance, limit: Finding['args']): Weighed => ({
    judgement: judgeLimit(figure.value, error, limits, previous),
    share: figure.value / Math.max(1e-9, limits.good),
    finding: { code, args: { rightPx, downPx, mm, ...limit } },
    figure,
  });
  const inMm = mmPerPx === null ? undefined : tolerances.shiftMm;
  const shifts: Weighed[] = [];
  if (inMm !== undefined && mmPerPx !== null)
    shifts.push(weighed({ value: mm, unit: 'mm' }, errorPx * mmPerPx, inMm, { limitMm: inMm.good }));
  if (inMm === undefined || tolerances.shiftPx !== undefined) {
    const limits = limitsOf(tolerances, 'shiftPx');
    shifts.push(weighed({ value: px, unit: 'px' }, errorPx, limits, { limitPx: limits.good }));
  }
  return worstOfShifts(shifts);
}

/** A part that moved by itself: the picture as a whole being in place says nothing of it. */
function partsMoved(facts: InPlaceFacts, { part, rightPx, downPx }: PlaceShift): Weighed[] {
  if (part === null) return [];
  const whole = { rightPx: rightPx + part.rightPx, downPx: downPx + part.downPx, errorPx: part.errorPx };
  return weighShift(facts, 'place.part-moved', whole);
}

/** Something before it, or gone: whether that is meant is for a person to say, so it is a doubt at most. */
function partLost(shift: PlaceShift): Weighed[] {
  const { lost } = shift;
  if (lost === null) return [];
  const [across, down] = [(lost.left + lost.right) / 2, (lost.top + lost.bottom) / 2];
  return [
    {
      judgement: 'doubt',
      share: 1,
      finding: { code: 'place.part-lost', args: { acrossPercent: 100 * across, downPercent: 100 * down } },
      figure: shiftFigure(shift),
    },
  ];
}

/** Something smooth gone, moved or new: likewise. */
function partChanged(shift: PlaceShift): Weighed[] {
  const { changed } = shift;
  if (changed === null) return [];
  const [across, down] = [(changed.left + changed.right) / 2, (changed.top + changed.bottom) / 2];
  return [
    {
      judgement: 'doubt',
      share: 1,
      finding: { code: 'place.part-changed', args: { acrossPercent: 100 * across, downPercent: 100 * down } },
      figure: shiftFigure(shift),
    },
  ];
}

function worstOfShifts(shifts: readonly Weighed[]): Weighed[] {
  const sorted = [...shifts].sort(
    (a, b) => gravityOf(a.judgement) - gravityOf(b.judgement) || b.share - a.share,
  );
  return sorted.slice(0, 1);
}

function preliminary(figure: Figure, lead: Weighed | null): Verdict {
  const isOff = lead !== null && lead.judgement === 'bad';
  const code = isOff ? 'place.preview-off' : 'place.preview';
  return {
    judgement: isOff ? 'doubt' : 'unknown',
    findings: [{ code, args: { px: figure.value } }, ...(isOff ? [lead.finding] : [])],
    figure: isOff ? lead.figure : figure,
  };
}
