import type {
  ColourFigures,
  DeliveredColour,
  Figure,
  Finding,
  Judgement,
  ToleranceSet,
  Tolerances,
  Verdict,
} from '../../facts/index.ts';
import { toleranceSets } from '../../facts/index.ts';
import { gravityOf, heldBound, judgeLimit, limitsOf, worstOf } from '../limits.ts';

interface Weighed {
  readonly judgement: 'good' | 'doubt' | 'bad';
  readonly finding: Finding;
  readonly figure: Figure;
}

type Found = Extract<ColourFigures, { found: true }>;

/** A target that is seen less well than this proves nothing good. */
const confidenceSure = 0.6;

/** By what a target is weighed. */
export interface TargetLimits {
  readonly tolerances: Tolerances;
  /** Name of the tolerance set that stands in place of the limits for colour; null for none. */
  readonly toleranceSet: string | null;
  /** What was said of this frame before, or null. */
  readonly previous: Judgement | null;
  /** The target as the frame is rendered, by one that counts; left out or null where it is rendered by none. */
  readonly delivered?: DeliveredColour | null;
}

/** What a target that was found says of a frame's colours, the worst first. */
export function judgeTarget(
  own: Found,
  { tolerances, toleranceSet, previous, delivered = null }: TargetLimits,
): Verdict {
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

/** Nothing can be said, and why. */
export function unknown(code: string): Verdict {
  return { judgement: 'unknown', findings: [{ code, args: {} }] };
}
