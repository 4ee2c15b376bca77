import type {
  ColourFigures,
  DeliveredColour,
  DriftFromTarget,
  Figure,
  Finding,
  LightSourceName,
  NoTarget,
  Verdict,
} from '../../facts/index.ts';
import { gravityOf, judgeLimit } from '../limits.ts';
import { judgeTarget, type TargetLimits, unknown } from './judge-target.ts';

export interface ColourFacts extends TargetLimits {
  /** Null where nobody asked for a target. */
  readonly reading: ColourFigures | null;
  readonly source: LightSourceName;
  /** Whether the frame was taken for its target: then nothing else can speak for it. */
  readonly isTarget: boolean;
  /** Whether a target is to be looked for that has not been yet. */
  readonly notYet: boolean;
  /** Part of the picture that has lost light, %; left out where that is not known. */
  readonly lostPercent?: number;
  /** From the target that counts for it; null where there is none. */
  readonly drift: DriftFromTarget | null;
  /** As `delivered`, of the frame whose target counts for it. */
  readonly targetDelivered?: DeliveredColour | null;
}

/** Shift of neutrals between frames, u'v' (common practice, no source: a step of 0.004 is seen side by side). */
const driftUv = { good: 0.003, bad: 0.008 };

const withoutTarget: Readonly<Record<NoTarget, string>> = {
  none: 'colour.no-target',
  mirrored: 'colour.target-mirrored',
  'cut-off': 'colour.target-cut-off',
  several: 'colour.several-targets',
  unsure: 'colour.target-unsure',
};

/**
 * The fifth question: is colour true?
 *
 * The rule: a target in the frame speaks by its mean and its worst patch (CIEDE2000, exposure put right) and by its greys
 * (Duv), as the frame is delivered: rendered by the target that counts where one does,
 * else by its own balance. Each against its tolerance, the worst first; where a tolerance set is chosen, by that set's
 * limits, which are kept or not.
 * A frame without one speaks by how what stands still in it has moved since the frame with the target that counts, and is
 * no better than that target. Neither of them, a preview, a camera whose colours nobody knows: `unknown`.
 */
export function judgeColour(facts: ColourFacts): Verdict {
  const { reading, source, drift } = facts;
  if (reading?.found === true) return judgeTarget(reading, facts);
  if (source === 'preview') return unknown('colour.preview');
  if (facts.notYet) return unknown('colour.not-yet');
  if (drift !== null && !facts.isTarget) return judgeDrift(drift, facts);
  // Nobody has looked for a target: that there is none in the picture is not known.
  if (reading === null) return unknown('colour.none-counts');
  if (reading.why === 'none' && !facts.isTarget) return unknown('colour.no-target-counts');
  if (isTooBright(facts) && (reading.why === 'none' || reading.why === 'unsure'))
    return {
      judgement: 'unknown',
      findings: [{ code: 'colour.target-too-bright', args: { percent: facts.lostPercent ?? 0 } }],
    };
  return unknown(withoutTarget[reading.why]);
}

/** In a picture of a target that is burnt out so far, it is the light that hides it (common practice, no source), %. */
const burntOutPercent = 20;

function isTooBright({ isTarget, lostPercent = 0 }: ColourFacts): boolean {
  return isTarget && lostPercent >= burntOutPercent;
}

function judgeDrift(
  { target, drift }: DriftFromTarget,
  { targetDelivered = null, ...limits }: ColourFacts,
): Verdict {
  if (drift === null) return unknown('colour.nothing-stands-still');
  const { deltaUv, ev } = drift;
  const judgement = judgeLimit(deltaUv, 0, driftUv, limits.previous);
  const own: Finding = {
    code: judgement === 'good' ? 'colour.steady' : 'colour.drifted',
    args: { deltaUv, ev },
  };
  const figure = { value: deltaUv, unit: 'Δu′v′' };
  const itself =
    target?.found === true
      ? judgeTarget(target, { ...limits, delivered: targetDelivered, previous: null })
      : null;
  if (itself === null)
    return { judgement: judgement === 'good' ? 'unknown' : judgement, findings: [targetUnread, own], figure };
  if (itself.judgement === 'good') return { judgement, findings: [own], figure };
  const [lead] = itself.findings;
  const aside: Finding[] = [{ code: 'colour.target-itself', args: {} }, lead];
  return gravityOf(itself.judgement) < gravityOf(judgement)
    ? {
        judgement: itself.judgement,
        findings: [{ code: 'colour.target-itself', args: {} }, lead, own],
        ...withFigure(itself.figure),
      }
    : { judgement, findings: [own, ...aside], figure };
}

const targetUnread: Finding = { code: 'colour.target-unread', args: {} };

function withFigure(figure: Figure | undefined): Partial<Pick<Verdict, 'figure'>> {
  return figure === undefined ? {} : { figure };
}
