import type {
  ChannelReading,
  ExposedFigures,
  Figure,
  Finding,
  Judgement,
  LightDifference,
  LightTrend,
  PlaceReading,
  Tolerances,
  Verdict,
} from '../../facts/index.ts';
import { gravityOf, heldBound, judgeLimit, limitsOf, worstOf } from '../limits.ts';

export interface ExposedFacts {
  readonly reading: ExposedFigures;
  readonly tolerances: Tolerances;
  /** Of the light from the reference's, what the dials explain taken off; null where there is none to compare with. */
  readonly fromReference: LightDifference | null;
  /** Among the frames before it with equal settings; null where there are too few. */
  readonly trend: LightTrend | null;
  /** Whether the delivery asks for a white backdrop. */
  readonly whiteBackdrop: boolean;
  /** How it lies on the reference: what cannot be laid on it is another scene. Null where there is none. */
  readonly shift: PlaceReading['shift'];
  readonly previous: Judgement | null;
}

/** One thing found, with how grave it is. */
interface Weighed {
  readonly judgement: 'good' | 'doubt' | 'bad';
  readonly finding: Finding;
  readonly figure: Figure;
}

/**
 * Light that changes does so everywhere: where parts differ from each other by more than this, and by more than a share of
 * the change, it is another scene.
 */
const sceneSpread = { ev: 0.08, share: 0.35 };
/**
 * A sudden fall of this much is no cloud: a strobe stayed dark (common practice, no source). One of several leaves some
 * parts darker than others by this share of the fall at least; all of them make it deep night.
 */
const strobe = { ev: 0.7, spreadShare: 0.08, allEv: 2.5 };
/** Light that went so far slowly while each step was small, against the limit for light. */
const suddenShare = 0.6;
/** A picture whose bright end lies this far below saturation throws away that much of the sensor. */
const darkStops = { good: 2, bad: 5 };
/** Half of a picture as bright as that about 18 % grey is not dark: there is nothing in it that would be brighter. */
const litMiddleStops = -0.5;
/** The middle is about 0: it holds on to what was said by so many stops. */
const heldStops = 0.05;
/** Stripes: seen, and not to be mended. */
const bandingEv = { good: 0.06, bad: 0.2 };
/** A backdrop asked to be white, where nobody said how much of it may not be. */
const backdropGreyPercent = { good: 5, bad: 30 };

/**
 * The third question: is it exposed right?
 *
 * The rule: lost light in areas against its tolerance, the light against the reference and against the frames before it,
 * stripes, a bright end far below saturation, and the backdrop where it was asked to be white; the worst leads. A preview
 * was developed by the camera, so it proves nothing and only warns.
 */
export function judgeExposed(asked: ExposedFacts): Verdict {
  const facts = { ...asked, reading: withoutWhiteBackdrop(asked) };
  const { reading } = facts;
  if (isTooSmall(reading))
    return { judgement: 'unknown', findings: [{ code: 'exposed.too-small', args: {} }] };
  const found = [
    clipped(facts),
    ...lights(facts),
    ...banded(facts),
    ...dark(facts),
    ...backdropOf(facts),
  ].sort((a, b) => gravityOf(a.judgement) - gravityOf(b.judgement));
  const against = found.filter(({ judgement }) => judgement !== 'good');
  const worst = worstOf(against.map(({ judgement }) => judgement));
  const [lead, ...rest] = against;
  if (reading.source === 'preview') return preliminary(reading, lead ?? null);
  if (lead === undefined) return good(facts);
  return {
    judgement: worst,
    findings: [lead.finding, ...rest.map(({ finding }) => finding)],
    figure: lead.figure,
  };
}

/** No part of it could be measured, though it is neither lost nor black: a picture of a few pixels. */
function isTooSmall({ middleStops, saturatedPercent, underNoisePercent }: ExposedFigures): boolean {
  return middleStops === null && saturatedPercent === 0 && underNoisePercent < 50;
}

/** White that was asked for is no lost light. */
function withoutWhiteBackdrop({ reading, whiteBackdrop }: ExposedFacts): ExposedFigures {
  if (!whiteBackdrop) return reading;
  return { ...reading, saturatedPercent: reading.saturatedPercent - reading.atBorderPercent };
}

function good({ reading, fromReference, shift, previous }: ExposedFacts): Verdict {
  const headroom = reading.headroomStops;
  const args = { stops: headroom, islandsPercent: reading.islandsPercent };
  if (fromReference !== null && isSameScene(fromReference, isOther(shift), previous)) {
    return {
      judgement: 'good',
      findings: [{ code: 'exposed.as-reference', args: { ...args, ev: fromReference.ev } }],
      figure: { value: fromReference.ev, unit: 'EV' },
    };
  }
  return {
    judgement: 'good',
    findings: [{ code: 'exposed.good', args }],
    figure: { value: headroom, unit: 'EV' },
  };
}

/** A camera's own tone curve cuts the brightest of every picture: a preview warns only of more lost light than this, %. */
const previewLostPercent = 50;

function preliminary({ headroomStops, saturatedPercent }: ExposedFigures, lead: Weighed | null): Verdict {
  const isCurve = saturatedPercent > 0 && saturatedPercent < previewLostPercent;
  const warns = lead !== null && lead.judgement === 'bad' && !isCurve;
  const code = warns ? 'exposed.preview-warns' : 'exposed.preview';
  return {
    judgement: warns ? 'doubt' : 'unknown',
    findings: [{ code, args: { stops: headroomStops } }, ...(warns ? [lead.finding] : [])],
  };
}

function clipped({ reading, tolerances, previous }: ExposedFacts): Weighed {
  const percent = reading.saturatedPercent;
  const judgement = judgeLimit(percent, 0, limitsOf(tolerances, 'saturatedPercent'), previous);
  const channel = lostChannel(reading);
  return {
    judgement,
    finding: { code: 'exposed.clipped', args: { percent, channel } },
    figure: { value: percent, unit: '%' },
  };
}

/** The channel that has lost alone, or all of them. */
function lostChannel({ red, green, blue }: ExposedFigures): string {
  const channels: readonly (readonly [string, ChannelReading])[] = [
    ['red', red],
    ['green', green],
    ['blue', blue],
  ];
  const most = Math.max(...channels.map(([, { saturatedPercent }]) => saturatedPercent));
  const lost = channels.filter(([, { saturatedPercent }]) => saturatedPercent > most / 4);
  const [only] = lost;
  return lost.length === 1 && only !== undefined ? only[0] : 'all';
}

function lights({ tolerances, fromReference, trend, shift, previous }: ExposedFacts): Weighed[] {
  const limits = limitsOf(tolerances, 'lightEv');
  const weigh = (code: string, { ev }: LightDifference, args: Finding['args'] = {}): Weighed => ({
    judgement: judgeLimit(Math.abs(ev), 0, limits, previous),
    finding: { code, args: { ...args, ev } },
    figure: { value: ev, unit: 'EV' },
  });
  const sudden =
    trend !== null && isSameScene(trend.fromMedian, isBlank(shift), previous) ? trend.fromMedian : null;
  if (sudden !== null && isStrobe(sudden, previous)) return [weigh('exposed.strobe-dark', sudden)];
  if (fromReference !== null && isSameScene(fromReference, isOther(shift), previous)) {
    const code = isStrobe(fromReference, previous) ? 'exposed.strobe-off-reference' : 'exposed.off-reference';
    return [weigh(code, fromReference)];
  }
  if (trend === null || sudden === null) return [];
  const jumped = weigh('exposed.light-jumped', sudden, { frames: trend.frames });
  if (jumped.judgement !== 'good') return [jumped];
  const slow = trend.fromFirst;
  const drifted =
    isSameScene(slow, isBlank(shift), previous) && Math.abs(sudden.ev) < suddenShare * Math.abs(slow.ev);
  return drifted ? [weigh('exposed.light-drifts', slow, { frames: trend.frames })] : [];
}

/** What was said of the light before holds on to the scene that it was said of. */
function isSameScene(
  { ev, spreadEv }: LightDifference,
  isOther: boolean,
  previous: Judgement | null,
): boolean {
  const counted = isSaid(previous) ? previous !== 'good' : null;
  // What looks like another picture has to have changed everywhere alike.
  const share = isOther ? 0 : sceneSpread.share * Math.abs(ev);
  return spreadEv < heldBound(Math.max(sceneSpread.ev, share), counted);
}

/** A card or a cloth before the lens has nothing to be laid on anything. */
function isBlank(shift: ExposedFacts['shift']): boolean {
  return shift !== null && 'unknown' in shift && shift.unknown === 'no-structure';
}

function isOther(shift: ExposedFacts['shift']): boolean {
  return isBlank(shift) || (shift !== null && 'unknown' in shift && shift.unknown === 'other-picture');
}

function isSaid(previous: Judgement | null): boolean {
  return previous !== null && previous !== 'unknown';
}

function isStrobe({ ev, spreadEv }: LightDifference, previous: Judgement | null): boolean {
  // Counts above its bounds, so they move the other way.
  const counted = isSaid(previous) ? previous !== 'bad' : null;
  const fall = -ev;
  const uneven = spreadEv > heldBound(strobe.spreadShare * fall, counted);
  return fall >= heldBound(strobe.allEv, counted) || (fall >= heldBound(strobe.ev, counted) && uneven);
}

function banded({ reading: { banding }, previous }: ExposedFacts): Weighed[] {
  if (banding === null) return [];
  return [
    {
      judgement: judgeLimit(banding.ev, 0, bandingEv, previous),
      finding: { code: 'exposed.banding', args: { ev: banding.ev, hertz: banding.hertz ?? 0 } },
      figure: { value: banding.ev, unit: 'EV' },
    },
  ];
}

function dark({ reading: { headroomStops, middleStops }, previous }: ExposedFacts): Weighed[] {
  const held = !isSaid(previous) ? 0 : previous === 'good' ? -heldStops : heldStops;
  if (middleStops !== null && middleStops > litMiddleStops + held) return [];
  return [
    {
      judgement: judgeLimit(headroomStops, 0, darkStops, previous),
      finding: { code: 'exposed.dark', args: { stops: headroomStops } },
      figure: { value: headroomStops, unit: 'EV' },
    },
  ];
}

function backdropOf({ reading, whiteBackdrop, tolerances, previous }: ExposedFacts): Weighed[] {
  if (!whiteBackdrop) return [];
  const { whitePercent, unevenEv } = reading.backdrop;
  const grey = 100 - whitePercent;
  return [
    {
      judgement: judgeLimit(grey, 0, tolerances.backdropGreyPercent ?? backdropGreyPercent, previous),
      finding: { code: 'exposed.backdrop-grey', args: { percent: grey } },
      figure: { value: grey, unit: '%' },
    },
    {
      judgement: judgeLimit(unevenEv, 0, limitsOf(tolerances, 'lightEv'), previous),
      finding: { code: 'exposed.backdrop-uneven', args: { ev: unevenEv } },
      figure: { value: unevenEv, unit: 'EV' },
    },
  ];
}
