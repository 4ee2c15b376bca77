import type { Finding, Judgement, LightDifference } from '../../facts/index.ts';
import { heldBound, judgeLimit, limitsOf } from '../limits.ts';
import type { ExposedFacts, Weighed } from './exposed-facts.ts';

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
/**
 * The light against the frames before it, else against the reference: a strobe, another light, a drift. One finding at most.
 */
export function judgeLight({ tolerances, fromReference, trend, shift, previous }: ExposedFacts): Weighed[] {
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
export function isSameScene(
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

/** Nothing shows that it is the reference's scene: stripes one way cannot be laid on anything either. */
export function isOther(shift: ExposedFacts['shift']): boolean {
  if (shift === null || !('unknown' in shift)) return false;
  return isBlank(shift) || shift.unknown === 'other-picture' || shift.unknown === 'one-direction';
}

export function isSaid(previous: Judgement | null): boolean {
  return previous !== null && previous !== 'unknown';
}

function isStrobe({ ev, spreadEv }: LightDifference, previous: Judgement | null): boolean {
  // Counts above its bounds, so they move the other way.
  const counted = isSaid(previous) ? previous !== 'bad' : null;
  const fall = -ev;
  const uneven = spreadEv > heldBound(strobe.spreadShare * fall, counted);
  return fall >= heldBound(strobe.allEv, counted) || (fall >= heldBound(strobe.ev, counted) && uneven);
}
