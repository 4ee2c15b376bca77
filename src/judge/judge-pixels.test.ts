import { expect, test } from 'vitest';
import type {
  EdgeWidth,
  ExposedReading,
  Judgement,
  LightDifference,
  LightMap,
  SharpReading,
  SharpReference,
  Verdict,
} from '../facts/index.ts';
import { sentence } from '../words/index.ts';
import type { ExposedFacts } from './exposed/exposed-facts.ts';
import { judgeExposed } from './exposed/judge-exposed.ts';
import { lightTrend } from './exposed/light-history.ts';
import { halfPlaneOf } from './half-plane.ts';
import { judgeLimit, usualTolerances } from './limits.ts';
import { noWishes, readMosaic } from './read-frame.ts';
import { judgeSharp } from './sharp/judge-sharp.ts';
import { readSharp } from './sharp/read-sharp.ts';
import { softPartOf } from './sharp/soft-part.ts';
import { gaussian, madeEdge } from './testing/made-light.ts';
import { madeMosaic } from './testing/made-mosaic.ts';

const width = (widthPx: number, errorPx = 0.05): EdgeWidth => ({
  widthPx,
  errorPx,
  sigmaPx: widthPx / 2.563,
  mtf50: 0.48 / widthPx,
  snr: 40,
  edges: 8,
  confidence: 0.95,
});
const sharp = (widthPx: number, more: Partial<SharpReading> = {}): SharpReading => ({
  source: 'raw',
  samplePx: 1,
  spot: { left: 0.4, top: 0.4, right: 0.6, bottom: 0.6, teller: 'given' },
  atSpot: width(widthPx),
  elsewhere: null,
  blur: { kind: 'focus', directionDegrees: null, lengthPx: null },
  map: { columns: 1, rows: 1, columnEnds: [1], rowEnds: [1], widthsPx: [widthPx] },
  profile: null,
  ...more,
});
const ofSharp = (
  reading: SharpReading,
  previous: Judgement | null = null,
  reference: SharpReading | null = null,
): Verdict => judgeSharp({ reading, tolerances: {}, reference: referenceOf(reference), previous });
const referenceOf = (reference: SharpReading | null): SharpReference | null =>
  reference && { ...reference, softPart: null };
const said = (verdict: Verdict): string => sentence(verdict.findings[0]);

test('a sharp frame is good, a soft one bad, between them lies the doubt', () => {
  expect(ofSharp(sharp(1.8)).judgement).toBe('good');
  expect(ofSharp(sharp(3.5)).judgement).toBe('doubt');
  expect(ofSharp(sharp(6)).judgement).toBe('bad');
  expect(said(ofSharp(sharp(6)))).toBe('Out of focus: edges 6 px wide every way, up to 2.8 px is sharp.');
});

test('movement is said with its way and length, though edges along it are sharp', () => {
  const blur = { kind: 'movement' as const, directionDegrees: 90, lengthPx: 12 };
  // A movement of 12 px rises over 0.8 · 12 px: sqrt(1.6² + 9.6²) = 9.7.
  expect(ofSharp(sharp(1.6, { blur })).judgement).toBe('bad');
  expect(said(ofSharp(sharp(1.6, { blur })))).toBe(
    'Moved while the shutter was open: 12 px up and down, edges 9.7 px wide, up to 2.8 px is sharp.',
  );
});

test('a movement that only the rest of the picture shows is a doubt, unless it would be sharp even so', () => {
  const blur = { kind: 'movement-elsewhere' as const, directionDegrees: 163, lengthPx: 7.5 };
  const verdict = ofSharp(sharp(1.44, { blur }));
  expect(verdict.judgement).toBe('doubt');
  expect(said(verdict)).toBe(
    'Movement cannot be ruled out: edges elsewhere look moved by 7.5 px sideways, and here none lies across that way.',
  );
  // sqrt(1.44² + (0.8 · 2)²) = 2.15.
  expect(ofSharp(sharp(1.44, { blur: { ...blur, lengthPx: 2 } })).judgement).toBe('good');
  // The reference looks moved just so: that is the scene. Twice as far is not.
  const reference = sharp(1.5, { blur: { ...blur, directionDegrees: 4 } });
  expect(ofSharp(sharp(1.44, { blur: { ...blur, directionDegrees: 170 } }), null, reference).judgement).toBe(
    'good',
  );
  expect(ofSharp(sharp(1.44, { blur: { ...blur, lengthPx: 15 } }), null, reference).judgement).toBe('doubt');
});

test('of two that are both far sharper than needed the less sharp one is no worse', () => {
  expect(ofSharp(sharp(0.92), null, sharp(0.74)).judgement).toBe('good');
  expect(ofSharp(sharp(1.9), null, sharp(0.74)).judgement).toBe('doubt');
});

test('a part that is sharp in the reference and soft here is a doubt, unless somebody said what is to be sharp', () => {
  const map = (widths: readonly (number | null)[]): SharpReading['map'] => ({
    columns: 4,
    rows: 2,
    columnEnds: [0.25, 0.5, 0.75, 1],
    rowEnds: [0.5, 1],
    widthsPx: widths,
  });
  const all = map([1.5, 1.6, 1.5, null, 1.5, 1.4, 1.6, 1.5]);
  const right = map([1.5, 9, 8, 9, 1.6, 9, 8, 9]);
  const softPart = softPartOf(right, all, null, null);
  expect(softPart).toMatchObject({ left: 0.25, right: 1, widthPx: 9, referencePx: 1.5 });
  expect(softPartOf(all, all, null, null)).toBeNull();
  // The other way round nothing has become softer.
  expect(softPartOf(all, right, null, null)).toBeNull();
  const reference = { ...sharp(1.5), softPart };
  const free = { left: 0, top: 0, right: 0.25, bottom: 1, teller: 'sharpest' as const };
  const found = judgeSharp({
    reading: sharp(1.5, { spot: free }),
    tolerances: {},
    reference,
    previous: null,
  });
  expect(found.judgement).toBe('doubt');
  expect(said(found)).toBe(
    'Soft at the right of the picture, where the reference is sharp: edges 9 px wide, there 1.5 px.',
  );
  expect(judgeSharp({ reading: sharp(1.5), tolerances: {}, reference, previous: null }).judgement).toBe(
    'good',
  );
});

test('a part so soft that no edge is read any more counts, where its light is what it was', () => {
  const map = (widths: readonly (number | null)[]): SharpReading['map'] => ({
    columns: 4,
    rows: 2,
    columnEnds: [0.25, 0.5, 0.75, 1],
    rowEnds: [0.5, 1],
    widthsPx: widths,
  });
  const light = (stops: readonly number[]): LightMap => ({
    columns: 8,
    rows: 4,
    stops: Array.from({ length: 32 }, (_, part) => stops[part % 8] ?? 0),
  });
  const even = light([-1, 0, -1, 0, -1, 0, -1, 0]);
  const own = map([1.5, null, null, null, 1.6, null, 20, null]);
  const all = map([1.5, 1.6, 1.5, 1.5, 1.5, 1.4, 1.6, 1.5]);
  const part = softPartOf(own, all, { own: even, reference: even }, null);
  expect(part).toMatchObject({ left: 0.25, right: 1, widthPx: null, referencePx: 1.5 });
  // All of it a sixth of a stop darker is the same light; a part two stops darker, or brighter, is not.
  const dim = light([-1.15, -0.15, -1.15, -0.15, -1.15, -0.15, -1.15, -0.15]);
  expect(softPartOf(own, all, { own: dim, reference: even }, null)).not.toBeNull();
  for (const off of [-2, 2]) {
    const other = light([-1, 0, -1, 0, -1, off, -1 + off, off]);
    expect(softPartOf(own, all, { own: other, reference: even }, null)).toBeNull();
  }
  // In noise, or where nothing is known of the light, nothing is said of them.
  expect(softPartOf(own, all, null, null)).toBeNull();
  // The reference had no edge there either.
  expect(softPartOf(own, own, { own: even, reference: even }, null)).toBeNull();
  const spot = { left: 0, top: 0, right: 0.25, bottom: 1, teller: 'sharpest' as const };
  const reference = { ...sharp(1.5), softPart: part };
  const verdict = judgeSharp({ reading: sharp(1.5, { spot }), tolerances: {}, reference, previous: null });
  expect(verdict.judgement).toBe('doubt');
  expect(said(verdict)).toBe(
    'Soft at the right of the picture: no edge can be measured there any more, where the reference is sharp with edges 1.5 px wide.',
  );
});

test('sharp in the wrong place leads, and says where', () => {
  const elsewhere = { ...width(1.5), left: 0.8, top: 0.4, right: 1, bottom: 0.6 };
  expect(said(ofSharp(sharp(6, { elsewhere })))).toBe(
    'Sharp, but not where it should be: the sharpest edges lie to the right of it, 1.5 px wide.',
  );
});

test('what is less soft than the spot, and soft all the same, is not called sharp', () => {
  const elsewhere = { ...width(3.7), left: 0.8, top: 0.4, right: 1, bottom: 0.6 };
  const sentenceOf =
    'Soft everywhere, and softer where it should be sharp: the least soft edges lie to the right of it, 3.7 px wide.';
  expect(said(ofSharp(sharp(10, { elsewhere })))).toBe(sentenceOf);
});

test('nothing to measure is unknown with its reason, in a frame and at a spot', () => {
  expect(ofSharp(sharp(1, { atSpot: null, spot: null }))).toMatchObject({
    judgement: 'unknown',
    findings: [{ code: 'sharp.no-edge' }],
  });
  expect(ofSharp(sharp(1, { atSpot: null })).findings[0].code).toBe('sharp.no-edge-at-spot');
  // Where nothing is known of the spot, nothing is said of it beside where other edges lie.
  const elsewhere = { ...width(1.5), left: 0.8, top: 0.4, right: 1, bottom: 0.6 };
  const [, second] = ofSharp(sharp(1, { atSpot: null, elsewhere })).findings;
  expect(second === undefined ? '' : sentence(second)).toBe(
    'The sharpest edges lie to the right of it, 1.5 px wide.',
  );
});

test('a preview proves nothing: never good, never bad, never held against a raw', () => {
  for (const px of [1, 3, 9]) {
    expect(['unknown', 'doubt']).toContain(ofSharp(sharp(px, { source: 'preview' })).judgement);
  }
  // A preview of a quarter of the edges shows no edge narrower than 8 px: that alone is not soft.
  const small = (px: number): Judgement => ofSharp(sharp(px, { source: 'preview', samplePx: 4 })).judgement;
  expect([8, 9, 14].map(small)).toEqual(['unknown', 'unknown', 'doubt']);
  const soft = sharp(5, { source: 'preview' });
  expect(ofSharp(sharp(1.8), null, soft).judgement).toBe('good');
  expect(ofSharp(sharp(3), null, sharp(3, { source: 'preview' })).judgement).toBe('doubt');
});

test('a reference that is softer by nature makes room, unless a person set the limit; much softer than it is never good', () => {
  expect(ofSharp(sharp(3.4), null, sharp(3.3)).judgement).toBe('good');
  const tolerances = { edgeWidthPx: { good: 2.8, bad: 4.5 } };
  expect(
    judgeSharp({ reading: sharp(3.4), tolerances, reference: referenceOf(sharp(3.3)), previous: null })
      .judgement,
  ).toBe('doubt');
  const blurred = ofSharp(sharp(5.2), null, sharp(5.2));
  expect(blurred.judgement).toBe('doubt');
  expect(blurred.findings.map((finding) => sentence(finding))).toContain(
    'The reference is as soft itself: edges 5.2 px wide there.',
  );
  const softer = ofSharp(sharp(2.6), null, sharp(1.5));
  expect(softer.judgement).toBe('doubt');
  expect(said(softer)).toBe('Softer than the reference: edges 2.6 px wide, there 1.5 px.');
});

test('a reference that is blurred itself makes room up to twice what is bad, no further', () => {
  // A frame shaken by 22 px before a reference whose own edges are 8.9 px wide: 1.6 times those would be 14 px.
  expect(ofSharp(sharp(12), null, sharp(8.9)).judgement).toBe('bad');
  expect(ofSharp(sharp(8), null, sharp(8.9)).judgement).toBe('doubt');
});

test('a verdict does not flicker about its limit, and lets go of it beyond', () => {
  const limit = { good: 2, bad: 4 };
  let last: Judgement | null = null;
  const changes = [1.9, 2.05, 1.98, 2.07, 2.02].map((value) => {
    const next: Judgement = judgeLimit(value, 0, limit, last);
    const changed = last !== null && next !== last;
    last = next;
    return changed;
  });
  expect(changes).not.toContain(true);
  expect(judgeLimit(2.2, 0, limit, 'good')).toBe('doubt');
  expect(judgeLimit(3.9, 0, limit, 'bad')).toBe('bad');
  expect(judgeLimit(3.7, 0, limit, 'bad')).toBe('doubt');
  // What may lie beyond a limit is on neither side of it.
  expect(judgeLimit(1.9, 0.2, limit, null)).toBe('doubt');
  expect(judgeLimit(4.1, 0.2, limit, null)).toBe('doubt');
});

test('over blurs and noises no frame at twice the tolerance is good, and none at half of it bad', () => {
  const { good } = usualTolerances.edgeWidthPx;
  const random = gaussian(3);
  let [falseGood, falseBad, judged] = [0, 0, 0];
  for (const share of [0.45, 0.5, 1, 1.5, 2, 2.5, 3]) {
    for (let k = 0; k < 6; k++) {
      const sigmaPx = (share * good) / 2.5631;
      const degrees = 90 * ((random() + 10) % 2);
      const grid = madeEdge({ sigmaPx, degrees, noise: k * 160, greenParity: 1 });
      const reading = readSharp(grid, halfPlaneOf(grid), { source: 'raw', spot: null });
      const { judgement } = ofSharp(reading);
      judged += judgement === 'unknown' ? 0 : 1;
      if (share >= 2 && judgement === 'good') falseGood++;
      if (share <= 0.5 && judgement === 'bad') falseBad++;
    }
  }
  expect({ falseGood, falseBad }).toEqual({ falseGood: 0, falseBad: 0 });
  expect(judged).toBeGreaterThan(36);
});

const flat = (share: number): ExposedReading =>
  readMosaic(
    madeMosaic(240, 160, (x, y) => share * (0.4 + 0.6 * Math.sin(x / 40 + y / 60) ** 2)),
    noWishes,
  ).exposed;
const facts = (reading: ExposedReading, more: Partial<ExposedFacts> = {}): ExposedFacts => ({
  reading,
  tolerances: {},
  fromReference: null,
  trend: null,
  whiteBackdrop: false,
  shift: null,
  settings: [],
  previous: null,
  ...more,
});
const light = (ev: number, spreadEv = 0.02): LightDifference => ({ ev, spreadEv });

test('nothing lost is good and says what is free', () => {
  const verdict = judgeExposed(facts(flat(0.5)));
  expect(verdict.judgement).toBe('good');
  expect(said(verdict)).toBe('Exposed right: nothing is lost, 1.0 EV are free above the brightest.');
});

test('light is held against the reference, in both directions', () => {
  const at = (ev: number): Judgement =>
    judgeExposed(facts(flat(0.5), { fromReference: light(ev) })).judgement;
  expect([0.05, -0.1, 0.3, -0.4, 0.7, -1].map(at)).toEqual(['good', 'good', 'doubt', 'doubt', 'bad', 'bad']);
  expect(said(judgeExposed(facts(flat(0.5), { fromReference: light(-1) })))).toBe(
    'The light is 1.0 EV darker than the reference’s.',
  );
  // Another scene says nothing of the light.
  expect(judgeExposed(facts(flat(0.5), { fromReference: light(-1, 0.9) })).judgement).toBe('good');
});

test('what cannot be laid on the reference is not held against its light, unless all of it changed alike', () => {
  // A grey card that fills the frame, rightly exposed: another scene, by however much it is darker.
  const card = facts(flat(0.5), { fromReference: light(-1.25, 0.4), shift: { unknown: 'no-structure' } });
  expect(judgeExposed(card).judgement).toBe('good');
  expect(judgeExposed({ ...card, shift: { unknown: 'other-picture' } }).judgement).toBe('good');
  expect(judgeExposed({ ...card, shift: null }).judgement).toBe('bad');
  expect(judgeExposed({ ...card, fromReference: light(-1.25) }).judgement).toBe('bad');
});

test('a fall from the reference that is not everywhere alike is told as a strobe', () => {
  expect(said(judgeExposed(facts(flat(0.5), { fromReference: light(-1.5, 0.3) })))).toBe(
    'The light is 1.5 EV darker than the reference’s, and not everywhere alike: a strobe may not have fired.',
  );
});

test('an evenly lit 18 % grey is exposed right, though its bright end lies 2.4 EV below saturation', () => {
  const card = readMosaic(
    madeMosaic(240, 160, () => 0.18),
    noWishes,
  ).exposed;
  expect(card.headroomStops).toBeGreaterThan(2.2);
  expect(judgeExposed(facts(card)).judgement).toBe('good');
});

test('a picture of one pixel says nothing of its exposure, and a black one is dark', () => {
  const one = readMosaic(
    madeMosaic(2, 2, () => 0.18),
    noWishes,
  ).exposed;
  expect(judgeExposed(facts({ ...one, middleStops: null }))).toMatchObject({ judgement: 'unknown' });
  const black = readMosaic(
    madeMosaic(240, 160, () => 0),
    noWishes,
  ).exposed;
  const noise = gaussian(5);
  const noisy = readMosaic(
    madeMosaic(240, 160, () => 0.002 * noise()),
    noWishes,
  ).exposed;
  for (const each of [black, noisy]) {
    const verdict = judgeExposed(facts(each));
    expect(verdict.judgement).toBe('bad');
    expect(verdict.figure).toBeUndefined();
    expect(said(verdict)).toContain('Black: no part of the picture stands out of noise.');
  }
});

test('a sudden fall is a strobe, a slow one a drift', () => {
  const frames = [0, 0.01, -0.02, 0.01].map((ev) => flat(0.5 * 2 ** ev).light);
  // The key light stays dark: what lay nearest to it falls by two stops, what lay farthest by one.
  const fallen = readMosaic(
    madeMosaic(240, 160, (x, y) => {
      const lit = 0.5 * (0.4 + 0.6 * Math.sin(x / 40 + y / 60) ** 2);
      return lit * 2 ** (-2 + x / 240);
    }),
    noWishes,
  ).exposed;
  const strobe = judgeExposed(facts(fallen, { trend: lightTrend(fallen.light, frames) }));
  expect(strobe.judgement).toBe('bad');
  expect(said(strobe)).toBe(
    'The light fell by 1.5 EV from one frame to the next: a strobe may not have fired.',
  );
  // All of it darker alike is the light or the dials.
  const even = flat(0.5 * 2 ** -1);
  expect(judgeExposed(facts(even, { trend: lightTrend(even.light, frames) })).findings[0].code).toBe(
    'exposed.light-jumped',
  );
  const falling = Array.from({ length: 12 }, (_, k) => flat(0.5 * 2 ** (-0.03 * k)).light);
  const now = flat(0.5 * 2 ** (-0.03 * 12));
  const drift = judgeExposed(facts(now, { trend: lightTrend(now.light, falling) }));
  expect(drift.judgement).toBe('doubt');
  expect(said(drift)).toBe('The light drifts: 0.36 EV darker than 12 frames ago.');
  expect(lightTrend(now.light, falling.slice(0, 1))).toBeNull();
});

test('over exposures no frame with twice the lost light allowed is good', () => {
  let falseGood = 0;
  for (let percent = 0; percent <= 8; percent += 0.25) {
    const reading = readMosaic(
      madeMosaic(400, 200, (x, y) => (y * 400 + x < percent * 800 ? 1.2 : 0.3)),
      noWishes,
    ).exposed;
    const { judgement } = judgeExposed(facts(reading));
    if (percent >= 2 * usualTolerances.saturatedPercent.good && judgement === 'good') falseGood++;
    if (percent > usualTolerances.saturatedPercent.bad) expect(judgement).toBe('bad');
  }
  expect(falseGood).toBe(0);
});

test('white that reaches the border is no fault where it was asked for, and grey where it was is one', () => {
  const product = (x: number, y: number): number => (Math.hypot(x - 300, y - 200) < 100 ? 0.2 : 1.05);
  const white = readMosaic(madeMosaic(600, 400, product), noWishes).exposed;
  expect(judgeExposed(facts(white)).judgement).toBe('bad');
  expect(judgeExposed(facts(white, { whiteBackdrop: true })).judgement).toBe('good');
  const grey = readMosaic(
    madeMosaic(600, 400, (x, y) => 0.7 * product(x, y)),
    noWishes,
  ).exposed;
  const asked = judgeExposed(facts(grey, { whiteBackdrop: true }));
  expect(asked).toMatchObject({ judgement: 'bad', findings: [{ code: 'exposed.backdrop-grey' }] });
  // The job's own limits count: it may all be grey.
  const tolerances = { backdropGreyPercent: { good: 100, bad: 100 } };
  expect(judgeExposed(facts(grey, { whiteBackdrop: true, tolerances })).judgement).toBe('good');
});

test('a frame that wastes five stops is bad, one that wastes three a doubt', () => {
  expect(judgeExposed(facts(flat(2 ** -3.2))).judgement).toBe('doubt');
  expect(said(judgeExposed(facts(flat(2 ** -6))))).toContain('EV below what the sensor holds');
  expect(judgeExposed(facts(flat(2 ** -6))).judgement).toBe('bad');
});

test('every finding of both questions has its sentence', () => {
  const codes = [
    'sharp.preview-soft',
    'sharp.soft',
    'exposed.banding',
    'exposed.backdrop-grey',
    'exposed.preview-warns',
  ];
  for (const code of codes) expect(sentence({ code, args: {} })).not.toContain(code);
});
