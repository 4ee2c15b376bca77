import { expect, test } from 'vitest';
import { applyMatrix, rgbSpaces, type Vector3, xyToDuv, xyzToXy } from '../../colour/index.ts';
import {
  type ColourFigures,
  type ColourReading,
  type DriftFromTarget,
  type TargetReading,
  toleranceSets,
} from '../../facts/index.ts';
import { sentence } from '../../words/index.ts';
import { madeTargetPicture } from '../testing/made-target.ts';
import { type ColourFacts, judgeColour } from './judge-colour.ts';
import { readColourPicture } from './read-colour.ts';
import { toleranceSetsMet } from './sets-met.ts';

const summary = { mean: 1.5, percentile90: 3, max: 4, maxPatch: 13, lightness: 1, chroma: 1 };
const reading: TargetReading = {
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
  greys: { duv: 0.001, deltaK: 40, deltaAb: 1 },
  profile: null,
};

function judge(facts: Partial<ColourFacts>) {
  return judgeColour({
    reading,
    source: facts.reading?.source ?? 'raw',
    isTarget: false,
    notYet: false,
    tolerances: {},
    toleranceSet: null,
    drift: null,
    previous: null,
    ...facts,
  });
}

test('a target within all limits is good, and says by how much it is off', () => {
  const verdict = judge({});
  expect(verdict).toMatchObject({ judgement: 'good', figure: { value: 1.5, unit: 'ΔE00' } });
  expect(sentence(verdict.findings[0])).toBe(
    'Colour is true: the target is off by 1.5 ΔE00 in the mean, 4.0 ΔE00 at worst, at blue.',
  );
});

test('each limit speaks for itself, the worst first', () => {
  const off = (colour: Partial<typeof summary>, duv = 0): TargetReading => ({
    ...reading,
    colour: { ...summary, ...colour },
    greys: { duv, deltaK: -300, deltaAb: 3 },
  });
  expect(judge({ reading: off({ mean: 5 }) })).toMatchObject({
    judgement: 'doubt',
    findings: [{ code: 'colour.off' }],
  });
  expect(judge({ reading: off({ mean: 8 }) }).judgement).toBe('bad');
  expect(judge({ reading: off({ max: 12 }) }).findings[0]).toMatchObject({ code: 'colour.patch-off' });
  const both = judge({ reading: off({ mean: 5 }, -0.02) });
  expect(both).toMatchObject({
    judgement: 'bad',
    findings: [{ code: 'colour.greys-off' }, { code: 'colour.off' }],
    figure: { value: -0.02, unit: 'Duv' },
  });
  expect(sentence(both.findings[0])).toBe('Greys lean towards magenta, 0.0200 Duv, and are 300 K too warm.');
  expect(judge({ tolerances: { meanDeltaE00: { good: 1, bad: 2 } } }).judgement).toBe('doubt');
});

test.each(['none', 'mirrored', 'cut-off', 'several', 'unsure'] as const)(
  'without a target to be read (%s) the answer is unknown, with a sentence',
  (why) => {
    const without: ColourReading = { found: false, source: 'raw', why };
    const verdict = judge({ reading: without });
    expect(verdict.judgement).toBe('unknown');
    expect(sentence(verdict.findings[0])).not.toContain('colour.');
  },
);

test('a frame without a target speaks by its drift', () => {
  const without: ColourReading = { found: false, source: 'raw', why: 'none' };
  const drift = (deltaUv: number, target: ColourFigures | null = reading): DriftFromTarget => ({
    frame: 'f1',
    target,
    drift: { deltaUv, deltaE00Mean: 1, deltaE00Max: 2, ev: 0 },
  });
  expect(judge({ reading: without, drift: drift(0.001) }).judgement).toBe('good');
  expect(judge({ reading: without, drift: drift(0.005) }).judgement).toBe('doubt');
  expect(judge({ reading: without, drift: drift(0.02) })).toMatchObject({
    judgement: 'bad',
    findings: [{ code: 'colour.drifted' }],
  });
  // No better than the target it is held against, and nothing without it.
  const off: TargetReading = { ...reading, colour: { ...summary, mean: 9 } };
  expect(judge({ reading: without, drift: drift(0.001, off) })).toMatchObject({
    judgement: 'bad',
    findings: [{ code: 'colour.target-itself' }, { code: 'colour.off' }, { code: 'colour.steady' }],
  });
  expect(judge({ reading: without, drift: drift(0.001, null) }).judgement).toBe('unknown');
  expect(judge({ reading: without, drift: { frame: 'f1', target: reading, drift: null } })).toMatchObject({
    judgement: 'unknown',
    findings: [{ code: 'colour.nothing-stands-still' }],
  });
});

test('a frame that nobody can say anything of is unknown, each with its own reason', () => {
  const codeOf = (facts: Partial<ColourFacts>): unknown => judge(facts).findings[0].code;
  // Nobody looked, so that nothing is said of what is in the picture.
  expect(codeOf({ reading: null })).toBe('colour.none-counts');
  expect(codeOf({ reading: null, notYet: true })).toBe('colour.not-yet');
  expect(codeOf({ reading: null, source: 'preview' })).toBe('colour.preview');
  for (const why of ['mirrored', 'cut-off', 'several', 'unsure', 'none'] as const) {
    const verdict = judge({ reading: { found: false, source: 'raw', why }, isTarget: true });
    expect(verdict.judgement).toBe('unknown');
    expect(sentence(verdict.findings[0])).toContain('target');
  }
});

test('a chosen set of limits is kept or missed, and named', () => {
  const good = judge({ toleranceSet: 'fadgi-2023-4-star' });
  expect(good.findings.map((each) => sentence(each))[1]).toBe(
    'It keeps the colour limits of FADGI (2023), 4 star, colour only.',
  );
  const missed = { ...reading, flat: { ...summary, mean: 2.4 } };
  const bad = judge({ reading: missed, toleranceSet: 'fadgi-2023-4-star' });
  expect(bad).toMatchObject({ judgement: 'bad', figure: { value: 2.4, unit: 'ΔE00' } });
  expect(sentence(bad.findings[0])).toBe(
    'Colour misses FADGI (2023), 4 star, colour only: mean ΔE00 2.4, allowed 2.0.',
  );
  // What the set does not limit says nothing: ISO has no 90th percentile.
  const wide = { ...reading, flat: { ...summary, percentile90: 9.5 } };
  expect(judge({ reading: wide, toleranceSet: 'iso-19264-1-a' }).judgement).toBe('good');
});

test('nothing is good that is not proved: previews, unknown cameras, lost light, a target hard to see', () => {
  expect(judge({ reading: { ...reading, source: 'preview' } }).judgement).toBe('unknown');
  expect(judge({ reading: { ...reading, colour: null } }).judgement).toBe('unknown');
  expect(judge({ reading: { ...reading, saturatedPatches: 1 } }).judgement).toBe('doubt');
  // A finished picture may well cut a vivid patch, but no grey.
  const cut: TargetReading = { ...reading, saturatedPatches: 1, source: 'picture' };
  expect(judge({ reading: cut }).judgement).toBe('good');
  expect(judge({ reading: { ...cut, saturatedGreys: 1 } }).judgement).toBe('doubt');
  expect(judge({ reading: { ...reading, confidence: 0.4 } }).judgement).toBe('doubt');
});

test('an assumed edition is said', () => {
  expect(judge({ reading: { ...reading, editionBy: 'assumed' } }).findings[1]).toMatchObject({
    code: 'colour.edition-assumed',
  });
});

test('guideline limits are held by name, colour only; every set is met by what is stricter than it', () => {
  expect(toleranceSetsMet(reading)).toEqual(toleranceSets.map(({ name }) => name));
  const worse = { ...reading, flat: { ...summary, mean: 4.5, percentile90: 9, max: 12 } };
  expect(toleranceSetsMet(worse)).toEqual([
    'fadgi-2023-2-star',
    'fadgi-2023-1-star',
    'iso-19264-1-b',
    'iso-19264-1-c',
  ]);
  expect(toleranceSetsMet({ ...reading, saturatedPatches: 1 })).toEqual([]);
  for (const { title } of toleranceSets) expect(title).toContain('colour only');
});

/** Duv that a lamp of these gains gives a grey: what no reading knows of. */
function tintOf(gains: Vector3): number {
  const { toXyz } = rgbSpaces.srgb;
  return xyToDuv(xyzToXy(applyMatrix(toXyz, gains))) - xyToDuv(xyzToXy(applyMatrix(toXyz, [1, 1, 1])));
}

test('no tint of twice the tolerance is good, none of half of it is bad or in doubt for its greys', () => {
  const limit = 0.004;
  let [beyond, within] = [0, 0];
  for (const green of [-0.14, -0.1, -0.03, -0.015, 0.015, 0.03, 0.1, 0.14]) {
    const gains: Vector3 = [0.9 - green / 3, 0.9 + (2 * green) / 3, 0.9 - green / 3];
    const picture = madeTargetPicture({
      widthPx: 220,
      heightPx: 170,
      targets: [{ centre: [110, 85], widthPx: 150, rotationDegrees: 200 * green }],
      gains,
      noise: 1,
    });
    const verdict = judge({ reading: readColourPicture(picture, { edition: null }, null) });
    const tint = Math.abs(tintOf(gains));
    if (tint >= 2 * limit) {
      beyond++;
      expect(verdict.judgement, `${green}`).not.toBe('good');
      expect(verdict.findings.map(({ code }) => code)).toContain('colour.greys-off');
    } else if (tint <= limit / 2) {
      within++;
      expect(verdict.findings.map(({ code }) => code)).not.toContain('colour.greys-off');
      expect(verdict.judgement, `${green}`).toBe('good');
    }
  }
  expect(Math.min(beyond, within)).toBeGreaterThan(1);
});

test('the worst patch is named once, by the first finding that has it', () => {
  const off = (colour: Partial<typeof summary>): TargetReading => ({
    ...reading,
    colour: { ...summary, ...colour },
  });
  const named = (facts: Partial<ColourFacts>): readonly string[] =>
    judge(facts)
      .findings.map((finding) => sentence(finding))
      .filter((said) => said.includes('at blue'));
  const meanFirst = judge({ reading: off({ mean: 8, max: 12 }) });
  expect(meanFirst.findings[0]?.code).toBe('colour.off');
  expect(named({ reading: off({ mean: 8, max: 12 }) })).toHaveLength(1);
  const patchFirst = judge({ reading: off({ mean: 5, max: 40 }) });
  expect(patchFirst.findings.map(({ code }) => code)).toEqual(['colour.patch-off', 'colour.off']);
  expect(named({ reading: off({ mean: 5, max: 40 }) })).toHaveLength(1);
});

test('where a counted target renders the frame the verdict speaks of that, and says what its own balance is worth', () => {
  const off = { ...reading, colour: { ...summary, mean: 9, max: 20 } };
  expect(judge({ reading: off }).judgement).toBe('bad');
  const delivered = {
    frame: 't',
    hash: 'h',
    own: false,
    colour: summary,
    flat: summary,
    greys: reading.greys,
  };
  const verdict = judge({ reading: off, delivered });
  expect(verdict).toMatchObject({ judgement: 'good', figure: { value: 1.5, unit: 'ΔE00' } });
  expect(verdict.findings.map((finding) => sentence(finding))).toContain(
    'Told as it is rendered, by the target that counts; by the camera’s own balance and matrix it would be 9.0 ΔE00 in the mean.',
  );
  const itself = judge({ reading: off, delivered: { ...delivered, own: true, flat: null, greys: null } });
  expect(itself.findings.map(({ code }) => code)).toContain('colour.by-own-target');
  // A camera whose colours nobody knows is told by the target all the same.
  expect(judge({ reading: { ...reading, colour: null } }).judgement).toBe('unknown');
  expect(judge({ reading: { ...reading, colour: null }, delivered }).judgement).toBe('good');
});

test('a picture of a target that is burnt out is told to be too bright, not to show none', () => {
  const none: ColourFigures = { found: false, source: 'raw', why: 'none' };
  const verdict = judge({ reading: none, isTarget: true, lostPercent: 85 });
  expect(verdict.judgement).toBe('unknown');
  expect(sentence(verdict.findings[0])).toBe(
    'No target can be read: 85 % of the picture has lost its light. Photograph it again, darker.',
  );
  expect(judge({ reading: none, isTarget: true, lostPercent: 2 }).findings[0].code).toBe('colour.no-target');
  expect(judge({ reading: none, lostPercent: 85 }).findings[0].code).toBe('colour.no-target-counts');
});

test('a frame that a bad target renders is no worse for what its camera alone would have made of that target', () => {
  const target = { ...reading, colour: { ...summary, mean: 9, max: 20 } };
  const drift: DriftFromTarget = {
    frame: 't',
    target,
    drift: { deltaUv: 0.001, deltaE00Mean: 0.2, deltaE00Max: 0.5, ev: 0 },
  };
  expect(judge({ reading: null, drift }).judgement).toBe('bad');
  const targetDelivered = { frame: 't', hash: 'h', own: true, colour: summary, flat: null, greys: null };
  expect(judge({ reading: null, drift, targetDelivered }).judgement).toBe('good');
});
