import {
  type ColourFigures,
  type DeliveredColour,
  type DriftFromTarget,
  type Figure,
  type Finding,
  type Judgement,
  type LightSourceName,
  type NoTarget,
  type TargetReading,
  type ToleranceSet,
  type Tolerances,
  toleranceSets,
  type Verdict,
} from '../../facts/index.ts';
import { gravityOf, heldBound, judgeLimit, limitsOf, worstOf } from '../limits.ts';

export interface ColourFacts {
  /** Null where nobody asked for a target. */
  readonly reading: ColourFigures | null;
  readonly source: LightSourceName;
  /** Whether the frame was taken for its target: then nothing else can speak for it. */
  readonly isTarget: boolean;
  /** Whether a target is to be looked for that has not been yet. */
  readonly notYet: boolean;
  readonly tolerances: Tolerances;
  /** Name of the tolerance set that stands in place of the limits for colour; null for none. */
  readonly toleranceSet: string | null;
  /** Part of the picture that has lost light, %; left out where that is not known. */
  readonly lostPercent?: number;
  /** From the target that counts for it; null where there is none. */
  readonly drift: DriftFromTarget | null;
  /** The target in it as it is rendered, by one that counts; left out or null where it is rendered by none. */
  readonly delivered?: DeliveredColour | null;
  /** The same of the frame whose target counts for it. */
  readonly targetDelivered?: DeliveredColour | null;
  /** What was said of this frame before, or null. */
  readonly previous: Judgement | null;
}

interface Weighed {
  readonly judgement: 'good' | 'doubt' | 'bad';
  readonly finding: Finding;
  readonly figure: Figure;
}

type Found = Extract<ColourFigures, { found: true }>;

/** Shift of neutrals between frames, u'v' (common practice, no source: a step of 0.004 is seen side by side). */
const driftUv = { good: 0.003, bad: 0.008 };

/** A target that is seen less well than this proves nothing good. */
const confidenceSure = 0.6;

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
 * (Duv), as the frame is delivered: rendered by the target that counts where one does, else by its own balance. Each against its tolerance, the worst first; where a tolerance set is chosen, by that set's limits, which are kept or not.
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

type Limits = Pick<ColourFacts, 'tolerances' | 'toleranceSet' | 'previous' | 'delivered'>;

function judgeTarget(own: Found, { tolerances, toleranceSet, previous, delivered = null }: Limits): Verdict {
  if (own.source === 'preview') return unknown('colour.preview');
  const reading = delivered === null ? own : { ...own, ...colourOf(delivered) };
  const { colour } = reading;
  if (colour === null) return unknown('colour.no-camera-colours');
  const limits = limitsOf(tolerances, 'meanDeltaE00');
  const mean: Weighed = {
    judgement: judgeLimit(colour.mean, 0, limits, previous),
    finding: { code: 'colour.off', args: { mean: colour.mean, limit: limits.good, ...worstPatch(reading) } },
    figure: { value: colour.mean, unit: 'ΔE00' },
  };
  const max: Weighed = {
    judgement: judgeLimit(colour.max, 0, limitsOf(tolerances, 'maxDeltaE00'), previous),
    finding: { code: 'colour.patch-off', args: worstPatch(reading) },
    figure: { value: colour.max, unit: 'ΔE00' },
  };
  const set = toleranceSets.find(({ name }) => name === toleranceSet);
  const weighed =
    set === undefined
      ? [...greys(reading, tolerances, previous), mean, max]
      : weighSet(reading, set, previous);
  const found = [...weighed, ...seenBadly(reading, previous)]
    .filter(({ judgement }) => judgement !== 'good')
    .sort((a, b) => gravityOf(a.judgement) - gravityOf(b.judgement));
  const aside: Finding[] = [
    ...renderedBy(own, delivered),
    ...(reading.editionBy === 'assumed' ? [{ code: 'colour.edition-assumed', args: {} }] : []),
  ];
  const [lead, ...rest] = found;
  if (lead === undefined) {
    return {
      judgement: 'good',
      findings: [
        { code: 'colour.good', args: { mean: colour.mean, ...worstPatch(reading) } },
        ...(set === undefined ? [] : [{ code: 'colour.set-kept', args: { set: set.title } }]),
        ...aside,
      ],
      figure: mean.figure,
    };
  }
  return {
    judgement: worstOf(found.map(({ judgement }) => judgement)),
    findings: [
      ...patchOnce(
        lead.finding,
        rest.map(({ finding }) => finding),
      ),
      ...aside,
    ],
    figure: lead.figure,
  };
}

/** What a verdict speaks of in place of the frame's own balance. */
function colourOf({ colour, flat, greys }: DeliveredColour): Pick<Found, 'colour' | 'flat' | 'greys'> {
  return { colour, flat, greys };
}

/** By which balance the figures are, where it is not the frame's own; and what its own would be, 0 where nobody knows. */
function renderedBy({ colour }: Found, delivered: DeliveredColour | null): Finding[] {
  if (delivered === null) return [];
  const code = delivered.own ? 'colour.by-own-target' : 'colour.by-counted-target';
  return [{ code, args: { mean: colour?.mean ?? 0 } }];
}

/** The worst patch is named by the mean's finding and by its own: where both are there, the first of them names it. */
function patchOnce(lead: Finding, rest: readonly Finding[]): readonly [Finding, ...Finding[]] {
  const codes = [lead, ...rest].map(({ code }) => code);
  const [mean, patch] = [codes.indexOf('colour.off'), codes.indexOf('colour.patch-off')];
  if (mean < 0 || patch < 0) return [lead, ...rest];
  return mean < patch
    ? [lead, ...rest.filter(({ code }) => code !== 'colour.patch-off')]
    : [lead, ...rest.map((finding) => (finding.code === 'colour.off' ? withoutPatch(finding) : finding))];
}

function withoutPatch({ code, args }: Finding): Finding {
  const { max: _max, patch: _patch, ...rest } = args;
  return { code, args: rest };
}

/**
 * Names of the tolerance sets whose limits for colour are all kept. That is never a level of the whole picture: a 24-patch
 * target says nothing of resolution, noise and evenness.
 */
export function toleranceSetsMet({
  flat,
  greys: grey,
  source,
  saturatedPatches,
}: Pick<TargetReading, 'flat' | 'greys' | 'source' | 'saturatedPatches'>): readonly string[] {
  if (flat === null || grey === null || source === 'preview') return [];
  if (source === 'raw' && saturatedPatches > 0) return [];
  return toleranceSets
    .filter(
      (set) =>
        flat.mean <= set.meanDeltaE00 &&
        flat.percentile90 <= (set.percentile90DeltaE00 ?? Number.POSITIVE_INFINITY) &&
        flat.max <= (set.maxDeltaE00 ?? Number.POSITIVE_INFINITY) &&
        grey.deltaAb <= set.greyDeltaAb,
    )
    .map(({ name }) => name);
}

function unknown(code: string): Verdict {
  return { judgement: 'unknown', findings: [{ code, args: {} }] };
}

/** A guideline's limits are kept or not: there is no doubt between. */
function weighSet({ flat, greys: grey }: Found, set: ToleranceSet, previous: Judgement | null): Weighed[] {
  const limits = [
    ['mean', flat?.mean, set.meanDeltaE00, 'ΔE00'],
    ['percentile90', flat?.percentile90, set.percentile90DeltaE00, 'ΔE00'],
    ['max', flat?.max, set.maxDeltaE00, 'ΔE00'],
    ['greys', grey?.deltaAb, set.greyDeltaAb, 'Δab'],
  ] as const;
  return limits.flatMap(([what, value, limit, unit]): Weighed[] => {
    if (limit === null) return [];
    const finding = { code: 'colour.set-missed', args: { set: set.title, what, value: value ?? 0, limit } };
    // What cannot be measured keeps no limit.
    if (value === undefined)
      return [
        {
          judgement: 'doubt',
          finding: { code: 'colour.set-open', args: { set: set.title } },
          figure: { value: 0, unit },
        },
      ];
    const judgement = judgeLimit(value, 0, { good: limit, bad: limit }, previous);
    return [{ judgement, finding, figure: { value, unit } }];
  });
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

function worstPatch({ colour }: Found): Finding['args'] {
  return { max: colour?.max ?? 0, patch: colour?.maxPatch ?? 0 };
}

function greys({ greys: grey }: Found, tolerances: Tolerances, previous: Judgement | null): Weighed[] {
  if (grey === null) return [];
  const size = Math.abs(grey.duv);
  return [
    {
      judgement: judgeLimit(size, 0, limitsOf(tolerances, 'neutralDuv'), previous),
      finding: { code: 'colour.greys-off', args: { duv: grey.duv, kelvin: grey.deltaK } },
      figure: { value: grey.duv, unit: 'Duv' },
    },
  ];
}

/** What keeps a reading from being believed in full. A finished picture may well cut a vivid patch, but no grey. */
function seenBadly(
  { source, saturatedPatches, saturatedGreys, confidence }: Found,
  previous: Judgement | null,
): Weighed[] {
  const counted = previous === 'good' ? false : previous === 'doubt' ? true : null;
  const lost = source === 'raw' ? saturatedPatches : saturatedGreys;
  return [
    ...(lost > 0
      ? [
          {
            judgement: 'doubt' as const,
            finding: { code: 'colour.target-lost-light', args: { patches: lost } },
            figure: { value: lost, unit: '' },
          },
        ]
      : []),
    ...(confidence < heldBound(confidenceSure, counted)
      ? [
          {
            judgement: 'doubt' as const,
            finding: { code: 'colour.target-seen-badly', args: { percent: 100 * confidence } },
            figure: { value: 100 * confidence, unit: '%' },
          },
        ]
      : []),
  ];
}
