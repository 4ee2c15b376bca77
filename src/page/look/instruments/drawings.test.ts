import { expect, test } from 'vitest';
import { curveSchema } from '../../../look/index.ts';
import { daylightXy, lightAt, placeOf } from './balance-drawing.ts';
import { curveHandles, densityOf, draggedCurve, xOfStops, yOfDensity } from './curve-drawing.ts';
import { tapeLines, tapeScale } from './tape-drawing.ts';
import { bandsLine, chromaAt, hueAt, onWheel, radiusOf, weightAt } from './wheel-drawing.ts';

const frame = { width: 300, height: 200 };
const curve = curveSchema.parse({
  pivot: 0.18,
  gamma: 1.3,
  toeEv: 4,
  shoulder: 1,
  whiteEv: 3,
  densityRange: 2.5,
});

test('the daylight locus passes through the chromaticities of CIE D50, D55, D65 and D75', () => {
  // CIE 15:2018, table T.3, at 1.4388 / 1.438 times their nominal temperatures (4.1.2, note).
  const published = {
    5003: [0.3457, 0.3585],
    5503: [0.3324, 0.3474],
    6504: [0.3127, 0.329],
    7504: [0.299, 0.3149],
  };
  for (const [kelvin, [x = 0, y = 0]] of Object.entries(published)) {
    const [ownX, ownY] = daylightXy(Number(kelvin));
    expect(ownX).toBeCloseTo(x, 3);
    expect(ownY).toBeCloseTo(y, 3);
  }
});

test('D65 has its place in the diagram, and the place its temperature and Duv', () => {
  // CIE 15:2018, T.3: u' v' of D65 are 0.1978, 0.4683, so u, v are 0.1978, 0.3122.
  const { x, y } = placeOf(frame, [0.3127, 0.329]);
  expect(x).toBeCloseTo(((0.1978 - 0.155) / 0.19) * 300, 0);
  expect(y).toBeCloseTo((1 - (0.3122 - 0.26) / 0.125) * 200, 0);
  const light = lightAt(frame, x, y);
  // 6504 K by definition; Duv 0.0032 (Ohno 2014, table 1, from memory).
  expect(light.temperatureK).toBeGreaterThan(6480);
  expect(light.temperatureK).toBeLessThan(6530);
  expect(light.duv).toBeCloseTo(0.0032, 3);
});

test('density is the logarithm of light under white, and the pivot lies at its place in stops', () => {
  expect(densityOf(0.1)).toBeCloseTo(1, 9);
  const pivot = curveHandles(frame, { ...curve, densityRange: null }).find(({ name }) => name === 'pivot');
  // -log10(0.18) = 0.745.
  expect(pivot?.x).toBeCloseTo(xOfStops(frame, 0), 6);
  expect(pivot?.y).toBeCloseTo(yOfDensity(frame, 0.7447), 1);
});

test.each(['toe', 'pivot', 'shoulder', 'white', 'black'] as const)(
  'a handle that is dragged to where it is changes nothing: %s',
  (name) => {
    const handle = curveHandles(frame, curve).find((each) => each.name === name);
    if (handle === undefined) throw new Error('there is a handle');
    const { name: member, value } = draggedCurve(frame, curve, name, handle);
    const before = curve[member.slice('curve.'.length) as keyof typeof curve];
    expect(value).toBeCloseTo(Number(before), 2);
  },
);

test('the straight line is steeper the lower its handle is dragged, a density of 0.301 x 1.5 for gamma 1', () => {
  // Gamma is density over log exposure: 1.5 stops are 0.4515.
  const from = yOfDensity(frame, densityOf(0.18));
  const y = from + yOfDensity(frame, 1.5 * Math.log10(2));
  expect(draggedCurve(frame, curve, 'straight', { x: 0, y }).value).toBeCloseTo(1, 6);
});

test('a hue and a chroma have a place on the wheel, and the place has them', () => {
  for (const hue of [0, 29, 142, 264, 359]) expect(hueAt(onWheel(hue, 50))).toBeCloseTo(hue, 6);
  for (const chroma of [-1, 0, 0.4]) expect(chromaAt(onWheel(77, radiusOf(chroma)))).toBeCloseTo(chroma, 9);
  // The Hann window: 1 in the middle, a half at half its reach, 0 at its end (Harris 1978).
  const band = { hueDeg: 350, reachDeg: 60 };
  expect([350, 20, 50].map((hue) => weightAt(hue, band))).toEqual([1, expect.closeTo(0.5, 9), 0]);
  const line = bandsLine([{ ...band, lightness: 0, chroma: 0.5, turnDeg: 0 }]);
  expect(line.map((place) => chromaAt(place)).filter((chroma) => chroma > 0.01).length).toBeGreaterThan(20);
});

test('no figure of a rule is cut through at its ends', () => {
  // 200 units at 3 a step are 33 steps to each side; four digits and a sign at 11 units a letter's height take some 30.
  const scale = tapeScale({ unit: 'factor', step: 0.01 });
  const reach = 100 / scale.perStep;
  for (const value of [0, 0.04, 0.11, 0.16, 0.31]) {
    const lines = tapeLines(value, { min: -4, max: 4, step: 0.01 }, scale, 100);
    for (const { steps, text } of lines)
      if (text !== '') expect((reach - Math.abs(steps)) * 3).toBeGreaterThan(15);
    expect(lines.some(({ text }) => text !== '')).toBe(true);
  }
});

test('of a number that is counted every one has its line, and figures stand on both sides of any of them', () => {
  for (const value of [1, 3, 4, 16, 100]) {
    const lines = tapeLines(
      value,
      { min: 1, max: 100, step: 1 },
      tapeScale({ unit: 'factor', step: 1 }),
      100,
    );
    const about = lines.map(({ steps }) => value + steps);
    expect(about).toEqual(about.map((_, index) => (about[0] ?? 0) + index));
    expect(lines.filter(({ text }) => text !== '').length).toBeGreaterThan(0);
  }
  const texts = tapeLines(4, { min: 1, max: 100, step: 1 }, tapeScale({ unit: 'factor', step: 1 }), 100);
  expect(texts.flatMap(({ text }) => (text === '' ? [] : [text]))).toEqual(['5', '10']);
});
