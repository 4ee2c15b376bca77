import { expect, test } from 'vitest';
import { type CharacteristicCurve, defaultLook, type Look, lookSchema } from '../../../look/index.ts';
import { heldPhrase } from '../../../words/index.ts';
import { numberOf, rangeOf, restOf, withNumber } from '../state/look-number.ts';
import { freeHue } from './free-hue.ts';
import { instruments, isTurned } from './instruments.ts';
import { typedNumber } from './tape-drawing.ts';
import { keyed } from './turn-keys.ts';
import { takenFigure } from './typed-figure.ts';

const curve: CharacteristicCurve = { ...(defaultLook.curve ?? fail()), densityRange: null };
const look: Look = lookSchema.parse({ ...defaultLook, curve: { ...curve, gamma: 1.3, whiteEv: 3 } });

function fail(): never {
  throw new Error('the plain look has a curve');
}

test('a figure is typed as a decimal or as thirds and halves are said', () => {
  const typed = { '1.5': 1.5, '−0,3': -0.3, '+1': 1, '1/2': 0.5, '+1/3': 1 / 3, '-1 2/3': -5 / 3 };
  for (const [text, value] of Object.entries(typed)) expect(typedNumber(text), text).toBeCloseTo(value, 12);
  for (const text of ['', ' ', 'abc', '1/0', '1/', '/3', '1 2']) expect(typedNumber(text), text).toBeNull();
});

test('what is typed and cannot stand is held at the nearest that can, and it is said why', () => {
  const said = (name: 'exposureEv' | 'curve.gamma' | 'curve.whiteEv', typed: string): string => {
    const { held } = takenFigure(look, { name }, typed);
    return held === null ? '' : heldPhrase(held);
  };
  expect(said('exposureEv', '1.5')).toBe('');
  expect(said('exposureEv', '')).toBe('');
  expect(said('exposureEv', '99')).toBe('5.00 is the most.');
  expect(said('exposureEv', '-99')).toBe('−5.00 is the least.');
  expect(said('exposureEv', 'abc')).toMatch(/^“abc” is no number/);
  expect(takenFigure(look, { name: 'exposureEv' }, 'abc').value).toBeNull();
  // log2(1 / 0.18) = 2.474 stops from the pivot to white; / 3 = 0.825, / 1.3 = 1.903.
  expect(said('curve.gamma', '0.5')).toMatch(/^Held at 0\.83: .* Raise white or the pivot first\.$/);
  expect(said('curve.whiteEv', '1')).toMatch(/^Held at 1\.91: .* Raise gamma or the pivot first\.$/);
});

test('the least that a curve allows is taken by the schema, a hundredth below it is not', () => {
  for (const name of ['curve.gamma', 'curve.whiteEv', 'curve.pivot'] as const) {
    const { min } = rangeOf(look, { name });
    expect(numberOf(withNumber(look, { name }, -1e9), { name }), name).toBe(min);
    const member = name.slice('curve.'.length);
    const below = { ...look, curve: { ...look.curve, [member]: min - 0.01 } };
    expect(lookSchema.safeParse(below).success, name).toBe(false);
  }
});

test('0 leaves the two numbers of a ratio, and lays others where they do nothing or where they started', () => {
  const at = { min: 1, max: 100 };
  expect(keyed('0', 1, 1, { ...at, rest: restOf('geometry.crop.across') })).toBeNull();
  expect(keyed('0', 1, 1, { ...at, rest: restOf('geometry.crop.down') })).toBeNull();
  expect(keyed('0', 1, 1, { ...at, rest: restOf('exposureEv') })).toBe(0);
  expect(keyed('0', 1, 1, { ...at, rest: restOf('curve.gamma') })).toBe(1.3);
});

test('twelve bands that are added lie apart', () => {
  const hues: number[] = [];
  for (let band = 0; band < 12; band++) hues.push(freeHue(hues));
  const sorted = [...hues].sort((a, b) => a - b);
  const gaps = sorted.map((hue, at) => (sorted[at + 1] ?? (sorted[0] ?? 0) + 360) - hue);
  // Handles stand about 63 units from the middle: ten degrees are 11 units, the width of a dot.
  expect(Math.min(...gaps)).toBeGreaterThanOrEqual(10);
  expect(Math.max(...hues)).toBeLessThan(360);
});

test('an instrument is marked when it does something to light, not when its part is only there', () => {
  const marked = (parts: Partial<Look>): readonly string[] =>
    instruments.filter((instrument) =>
      isTurned(lookSchema.parse({ ...look, curve: null, ...parts }), instrument),
    );
  const band = { hueDeg: 30, reachDeg: 60, lightness: 0, chroma: 0, turnDeg: 0 };
  const weight = { hueDeg: 30, reachDeg: 90, ev: 0 };
  expect(marked({})).toEqual([]);
  expect(marked({ bands: [band], monochrome: { amount: 0, bands: [weight] } })).toEqual([]);
  expect(
    marked({ acutance: { widthPx: 2, strength: 0, gate: 1 }, tint: { ...look.tint, darkHueDeg: 9 } }),
  ).toEqual([]);
  expect(marked({ bands: [{ ...band, turnDeg: 1 }], monochrome: { amount: 1, bands: [] } })).toEqual([
    'hues',
    'monochrome',
  ]);
  expect(marked({ curve: look.curve, tint: { ...look.tint, darkChroma: 0.01 } })).toEqual(['curve', 'tint']);
});
