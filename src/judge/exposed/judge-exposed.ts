import type { ChannelReading, ExposedFigures, Finding, Verdict } from '../../facts/index.ts';
import { gravityOf, judgeLimit, limitsOf, worstOf } from '../limits.ts';
import type { ExposedFacts, Weighed } from './exposed-facts.ts';
import { isOther, isSaid, isSameScene, judgeLight } from './judge-light.ts';
import { withSettings } from './judge-settings.ts';

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
 * settings that are not the reference's, stripes, a bright end far below saturation, and the backdrop where it was asked to be
 * white; the worst leads. A preview was developed by the camera, so it proves nothing and only warns; what the camera was set
 * to is said by the file and needs no pixels.
 */
export function judgeExposed(asked: ExposedFacts): Verdict {
  const facts = { ...asked, reading: withoutWhiteBackdrop(asked) };
  const { reading } = facts;
  if (isTooSmall(reading))
    return { judgement: 'unknown', findings: [{ code: 'exposed.too-small', args: {} }] };
  const found = [
    clipped(facts),
    ...withSettings(judgeLight(facts), facts.settings),
    ...banded(facts),
    ...dark(facts),
    ...backdropOf(facts),
  ].sort((a, b) => gravityOf(a.judgement) - gravityOf(b.judgement));
  const against = found.filter(({ judgement }) => judgement !== 'good');
  const worst = worstOf(against.map(({ judgement }) => judgement));
  const [lead, ...rest] = against;
  if (reading.source === 'preview') return preliminary(facts, lead ?? null);
  if (lead === undefined) return good(facts);
  return {
    judgement: worst,
    findings: [lead.finding, ...rest.map(({ finding }) => finding)],
    ...(lead.figure === undefined ? {} : { figure: lead.figure }),
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

function good(facts: ExposedFacts): Verdict {
  const { reading, fromReference } = facts;
  const headroom = reading.headroomStops;
  const args = { stops: headroom, islandsPercent: reading.islandsPercent };
  if (fromReference !== null && isReferencesScene(facts)) {
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

function preliminary({ reading, settings }: ExposedFacts, lead: Weighed | null): Verdict {
  const { headroomStops, saturatedPercent } = reading;
  const isCurve = saturatedPercent > 0 && saturatedPercent < previewLostPercent;
  const warns = lead !== null && lead.judgement === 'bad' && !isCurve;
  const code = warns ? 'exposed.preview-warns' : 'exposed.preview';
  const seen: Finding = { code, args: { stops: headroomStops } };
  const [set, ...more] = withSettings([], settings).map(({ finding }) => finding);
  const rest = warns ? [lead.finding] : [];
  if (set === undefined) return { judgement: warns ? 'doubt' : 'unknown', findings: [seen, ...rest] };
  return { judgement: 'doubt', findings: [set, ...more, seen, ...rest] };
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

/**
 * Boards, blinds and shelves have stripes of their own, and no single picture tells them from a lamp's: only where the same
 * scene in the reference has none are they the lamp's for certain. Else they are a doubt at most.
 */
function banded(facts: ExposedFacts): Weighed[] {
  const { banding } = facts.reading;
  if (banding === null) return [];
  const isLamp = facts.referenceStriped === false && isReferencesScene(facts);
  const judgement = judgeLimit(banding.ev, 0, bandingEv, facts.previous);
  return [
    {
      judgement: judgement === 'bad' && !isLamp ? 'doubt' : judgement,
      finding: {
        code: isLamp ? 'exposed.banding' : 'exposed.stripes',
        args: { ev: banding.ev, hertz: banding.hertz ?? 0 },
      },
      figure: { value: banding.ev, unit: 'EV' },
    },
  ];
}

function isReferencesScene({ fromReference, shift, previous }: ExposedFacts): boolean {
  return fromReference !== null && isSameScene(fromReference, isOther(shift), previous);
}

/** So much of a picture that is nothing but noise lies within one deviation of it (84 %), and a little is left for lamps. */
const blackPercent = 80;

function dark({ reading, previous }: ExposedFacts): Weighed[] {
  const { headroomStops, middleStops, underNoisePercent } = reading;
  const held = !isSaid(previous) ? 0 : previous === 'good' ? -heldStops : heldStops;
  if (middleStops !== null && middleStops > litMiddleStops + held) return [];
  const judgement = judgeLimit(headroomStops, 0, darkStops, previous);
  // How far nothing lies below the brightest that can be is no figure.
  if (middleStops === null && underNoisePercent >= blackPercent)
    return [{ judgement, finding: { code: 'exposed.black', args: {} } }];
  return [
    {
      judgement,
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
