import { describe, expect, test } from 'vitest';
import type {
  EdgeWidth,
  ExposedReading,
  Judgement,
  LightDifference,
  LightTrend,
  PlaceShift,
  SharpReading,
  TargetReading,
} from '../facts/index.ts';
import { toleranceSets } from '../facts/index.ts';
import { judgeColour } from './colour/judge-colour.ts';
import type { ExposedFacts } from './exposed/exposed-facts.ts';
import { judgeExposed } from './exposed/judge-exposed.ts';
import { judgeInPlace } from './in-place/judge-in-place.ts';
import { usualTolerances } from './limits.ts';
import { noWishes, readMosaic } from './read-frame.ts';
import { judgeSharp } from './sharp/judge-sharp.ts';
import { madeMosaic } from './testing/made-mosaic.ts';

/**
 * The same frame read again and again, each time a little differently, as a reading that is made anew or a light that
 * breathes would be: about every limit the answer may settle once and then stays.
 */
type Judge = (value: number, previous: Judgement | null) => Judgement;

/** How often the answer changes while the value wanders about the limit by up to 2 %. */
function changes(judge: Judge, limit: number, first: -1 | 1): number {
  let [previous, count]: [Judgement | null, number] = [null, 0];
  for (let step = 0; step < 40; step++) {
    // To and fro, each swing of another width; the golden ratio repeats none.
    const swing = 0.004 + 0.016 * ((step * 0.618_034) % 1);
    const next = judge(limit * (1 + first * (step % 2 === 0 ? swing : -swing)), previous);
    if (previous !== null && next !== previous) count += 1;
    previous = next;
  }
  return count;
}

function steady(name: string, limits: readonly number[], judge: Judge): void {
  test.each(limits)(`${name}: about %d`, (limit) => {
    for (const first of [-1, 1] as const) expect(changes(judge, limit, first)).toBeLessThanOrEqual(1);
    // And it is a limit: well on its two sides the answers differ.
    expect(judge(limit * 0.9, null)).not.toBe(judge(limit * 1.1, null));
  });
}

const both = ({ good, bad }: { readonly good: number; readonly bad: number }): number[] => [good, bad];

describe('Sharp', () => {
  const width = (widthPx: number): EdgeWidth => ({
    widthPx,
    errorPx: 0,
    sigmaPx: widthPx / 2.563,
    mtf50: 0.48 / widthPx,
    snr: 40,
    edges: 8,
    confidence: 0.95,
  });
  const reading = (px: number, more: Partial<SharpReading> = {}): SharpReading => ({
    source: 'raw',
    samplePx: 1,
    spot: { left: 0.4, top: 0.4, right: 0.6, bottom: 0.6, teller: 'given' },
    atSpot: width(px),
    elsewhere: null,
    blur: { kind: 'focus', directionDegrees: null, lengthPx: null },
    map: { columns: 1, rows: 1, columnEnds: [1], rowEnds: [1], widthsPx: [px] },
    profile: null,
    ...more,
  });
  const judge = (of: SharpReading, previous: Judgement | null, reference: SharpReading | null = null) =>
    judgeSharp({
      reading: of,
      tolerances: {},
      reference: reference && { ...reference, softPart: null },
      previous,
    }).judgement;
  steady('edge width', both(usualTolerances.edgeWidthPx), (px, previous) => judge(reading(px), previous));
  // Of a reference of 1.5 px 1.2 times as much counts as equal (and 0.05 px are its own error).
  steady('against the reference', [1.8], (px, previous) => judge(reading(px), previous, reading(1.5)));
});

describe('Exposed', () => {
  const clean = readMosaic(
    madeMosaic(240, 160, (x, y) => 0.5 * (0.4 + 0.6 * Math.sin(x / 40 + y / 60) ** 2)),
    noWishes,
  ).exposed;
  const judge = (
    reading: Partial<ExposedReading>,
    previous: Judgement | null,
    more: Partial<ExposedFacts> = {},
  ) =>
    judgeExposed({
      reading: { ...clean, ...reading },
      tolerances: {},
      fromReference: null,
      trend: null,
      whiteBackdrop: false,
      shift: null,
      settings: [],
      previous,
      ...more,
    }).judgement;
  const light = (ev: number, spreadEv = 0.02): LightDifference => ({ ev, spreadEv });
  const trend = (fromMedian: LightDifference, fromFirst = fromMedian): LightTrend => ({
    fromMedian,
    fromFirst,
    frames: 6,
  });
  steady('lost light', both(usualTolerances.saturatedPercent), (saturatedPercent, previous) =>
    judge({ saturatedPercent }, previous),
  );
  const { lightEv } = usualTolerances;
  steady('light from the reference', both(lightEv), (ev, previous) =>
    judge({}, previous, { fromReference: light(ev) }),
  );
  steady('light from the frames before', both(lightEv), (ev, previous) =>
    judge({}, previous, { trend: trend(light(ev)) }),
  );
  steady('slow drift', [lightEv.good, lightEv.bad], (ev, previous) =>
    judge({}, previous, { trend: trend(light(0.05), light(ev)) }),
  );
  // Equal to its reference, so that all hangs on whether the fall is a strobe that stayed dark.
  steady('a strobe that stayed dark, uneven', [0.7], (ev, previous) =>
    judge({}, previous, { fromReference: light(0.01), trend: trend(light(-ev, 0.12)) }),
  );
  steady('all strobes dark', [2.5], (ev, previous) =>
    judge({}, previous, { fromReference: light(0.01), trend: trend(light(-ev, 0.01)) }),
  );
  steady('another scene', [0.35 * 0.6], (spreadEv, previous) =>
    judge({}, previous, { fromReference: light(0.6, spreadEv) }),
  );
  steady('stripes', [0.06, 0.2], (ev, previous) =>
    judge({ banding: { ev, cycles: 8, hertz: 100 } }, previous, {
      fromReference: light(0.01),
      referenceStriped: false,
    }),
  );
  steady('a dark frame', [2, 5], (headroomStops, previous) =>
    judge({ headroomStops, middleStops: -3 }, previous),
  );
  steady('a grey backdrop', [5, 30], (grey, previous) =>
    judge({ backdrop: { whitePercent: 100 - grey, unevenEv: 0 } }, previous, { whiteBackdrop: true }),
  );
  // A frame whose half is lit as 18 % grey is not dark.
  steady('the middle of a dark frame', [0.5], (below, previous) =>
    judge({ headroomStops: 2.4, middleStops: -below }, previous),
  );
  steady('an uneven backdrop', both(lightEv), (unevenEv, previous) =>
    judge({ backdrop: { whitePercent: 100, unevenEv } }, previous, { whiteBackdrop: true }),
  );
});

describe('In place', () => {
  const on: PlaceShift = {
    rightPx: 0,
    downPx: 0,
    clockwiseDegrees: 0,
    largerPercent: 0,
    errorPx: 0,
    errorDegrees: 0,
    errorPercent: 0,
    at: { x: 0.5, y: 0.5 },
    likeness: 0.97,
    confidence: 1,
    part: null,
    lost: null,
    changed: null,
  };
  const judge = (shift: Partial<PlaceShift>, previous: Judgement | null) =>
    judgeInPlace({
      reading: { source: 'raw', shift: { ...on, ...shift }, subject: { unknown: 'not-plain' } },
      against: 'reference',
      tolerances: {},
      mmPerPx: null,
      previous,
    }).judgement;
  steady('shift', both(usualTolerances.shiftPx), (rightPx, previous) => judge({ rightPx }, previous));
  steady('turn', both(usualTolerances.rotationDeg), (clockwiseDegrees, previous) =>
    judge({ clockwiseDegrees }, previous),
  );
  steady('size', both(usualTolerances.scalePercent), (largerPercent, previous) =>
    judge({ largerPercent }, previous),
  );
  steady('how sure it is', [0.25], (confidence, previous) => judge({ confidence }, previous));
});

describe('True', () => {
  const summary = { mean: 1, percentile90: 1, max: 2, maxPatch: 13, lightness: 1, chroma: 1 };
  const on: TargetReading = {
    found: true,
    source: 'raw',
    place: {
      corners: [
        [0, 0],
        [1, 0],
        [1, 1],
        [0, 1],
      ],
      widthPx: 900,
      rotationDegrees: 0,
    },
    confidence: 0.95,
    edition: 'from-november-2014',
    editionBy: 'given',
    patches: [],
    saturatedPatches: 0,
    saturatedGreys: 0,
    exposureEv: 0,
    colour: summary,
    asIs: null,
    flat: summary,
    greys: { duv: 0, deltaK: 0, deltaAb: 0 },
    profile: null,
  };
  const judge = (
    reading: Partial<TargetReading>,
    previous: Judgement | null,
    toleranceSet: string | null = null,
  ) =>
    judgeColour({
      reading: { ...on, ...reading },
      source: 'raw',
      isTarget: false,
      notYet: false,
      tolerances: {},
      toleranceSet,
      drift: null,
      previous,
    }).judgement;
  steady('mean of the patches', both(usualTolerances.meanDeltaE00), (mean, previous) =>
    judge({ colour: { ...summary, mean } }, previous),
  );
  steady('worst patch', both(usualTolerances.maxDeltaE00), (max, previous) =>
    judge({ colour: { ...summary, max } }, previous),
  );
  steady('greys', both(usualTolerances.neutralDuv), (duv, previous) =>
    judge({ greys: { duv, deltaK: 0, deltaAb: 0 } }, previous),
  );
  steady('how well the target is seen', [0.6], (confidence, previous) => judge({ confidence }, previous));
  const [set] = toleranceSets;
  if (set === undefined) throw new Error('expected a tolerance set');
  steady(`a guideline’s limit (${set.title})`, [set.meanDeltaE00], (mean, previous) =>
    judge({ flat: { ...summary, mean } }, previous, set.name),
  );
  const nothing = { found: false, source: 'raw', why: 'none' } as const;
  steady(
    'drift since the target',
    [0.003, 0.008],
    (deltaUv, previous) =>
      judgeColour({
        reading: nothing,
        source: 'raw',
        isTarget: false,
        notYet: false,
        tolerances: {},
        toleranceSet: null,
        drift: { frame: 't', target: on, drift: { deltaUv, deltaE00Mean: 1, deltaE00Max: 2, ev: 0 } },
        previous,
      }).judgement,
  );
});
