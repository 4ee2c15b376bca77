import {
  type ColourDrift,
  type ColourReading,
  type Figure,
  type Finding,
  type Judgement,
  type NoTarget,
  type TargetReading,
  type Tolerances,
  toleranceSets,
  type Verdict,
} from '../../facts/index.ts';
import { gravityOf, judgeLimit, limitsOf, worstOf } from '../limits.ts';
import { greyPatches } from './published-patches.ts';

export interface ColourFacts {
  readonly reading: ColourReading;
  readonly tolerances: Tolerances;
  /** From the last frame with a target in the same light, where this one has none to be read; null otherwise. */
  readonly drift: ColourDrift | null;
  /** What was said of this frame before, or null. */
  readonly previous: Judgement | null;
}

interface Weighed {
  readonly judgement: 'good' | 'doubt' | 'bad';
  readonly finding: Finding;
  readonly figure: Figure;
}

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
 * (Duv), each against its tolerance, the worst first. A frame without one speaks by how its neutrals have moved since the
 * frame with the target. Neither of them, a preview, a camera whose colours nobody knows: `unknown`.
 */
export function judgeColour({ reading, tolerances, drift, previous }: ColourFacts): Verdict {
  if (!reading.found) {
    return drift === null
      ? unknown(withoutTarget[reading.why])
      : judgeDrift(drift, reading.source === 'preview', previous);
  }
  if (reading.source === 'preview') return unknown('colour.preview');
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
  const found = [...greys(reading, tolerances, previous), mean, max, ...seenBadly(reading)]
    .filter(({ judgement }) => judgement !== 'good')
    .sort((a, b) => gravityOf(a.judgement) - gravityOf(b.judgement));
  const aside: Finding[] =
    reading.editionBy === 'assumed' ? [{ code: 'colour.edition-assumed', args: {} }] : [];
  const [lead, ...rest] = found;
  if (lead === undefined) {
    return {
      judgement: 'good',
      findings: [{ code: 'colour.good', args: { mean: colour.mean, ...worstPatch(reading) } }, ...aside],
      figure: mean.figure,
    };
  }
  return {
    judgement: worstOf(found.map(({ judgement }) => judgement)),
    findings: [lead.finding, ...rest.map(({ finding }) => finding), ...aside],
    figure: lead.figure,
  };
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
}: TargetReading): readonly string[] {
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

function judgeDrift({ deltaUv, ev }: ColourDrift, isPreview: boolean, previous: Judgement | null): Verdict {
  if (isPreview) return unknown('colour.preview');
  const judgement = judgeLimit(deltaUv, 0, driftUv, previous);
  return {
    judgement,
    findings: [{ code: judgement === 'good' ? 'colour.steady' : 'colour.drifted', args: { deltaUv, ev } }],
    figure: { value: deltaUv, unit: 'Δu′v′' },
  };
}

function worstPatch({ colour }: TargetReading): Finding['args'] {
  return { max: colour?.max ?? 0, patch: colour?.maxPatch ?? 0 };
}

function greys(
  { greys: grey }: TargetReading,
  tolerances: Tolerances,
  previous: Judgement | null,
): Weighed[] {
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
function seenBadly({ source, patches, confidence }: TargetReading): Weighed[] {
  const lost = patches.filter(
    ({ patch, saturatedPercent }) =>
      saturatedPercent > 1 && (source === 'raw' || greyPatches.includes(patch)),
  ).length;
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
    ...(confidence < confidenceSure
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
