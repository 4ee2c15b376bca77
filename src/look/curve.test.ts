import fc from 'fast-check';
import { expect, test } from 'vitest';
import { identityMatrix } from '../colour/index.ts';
import { compileLook } from './compile.ts';
import { type CurveShape, curveFindings, curveFunction } from './curve.ts';
import { defaultLook, neutralLook } from './looks.ts';
import { curveSchema } from './schema.ts';

const curves = fc
  .record({
    pivot: fc.double({ min: 0.05, max: 0.5, noNaN: true }),
    gamma: fc.double({ min: 0.5, max: 3, noNaN: true }),
    toeEv: fc.double({ min: 1, max: 12, noNaN: true }),
    shoulder: fc.double({ min: 0.25, max: 4, noNaN: true }),
    whiteEv: fc.double({ min: 1, max: 10, noNaN: true }),
  })
  .filter((curve) => curveSchema.safeParse(curve).success);

const plain: CurveShape = { pivot: 0.18, gamma: 1.4, toeEv: 5, shoulder: 1, whiteEv: 3.2 };

test('every curve keeps black black, the pivot in its place, and reaches white where it says', () => {
  fc.assert(
    fc.property(curves, (curve) => {
      const { evaluate, sceneWhite } = curveFunction(curve);
      expect(evaluate(0)).toBe(0);
      expect(evaluate(curve.pivot)).toBeCloseTo(curve.pivot, 6);
      expect(sceneWhite).toBeCloseTo(curve.pivot * 2 ** curve.whiteEv, 9);
      expect(evaluate(sceneWhite * (1 - 1e-9))).toBeCloseTo(1, 4);
      expect(evaluate(sceneWhite * 50)).toBe(1);
    }),
  );
});

test('every curve rises all the way from black to white', () => {
  fc.assert(
    fc.property(curves, (curve) => {
      const { evaluate, sceneWhite } = curveFunction(curve);
      let last = 0;
      for (let step = 1; step <= 400; step++) {
        const value = evaluate(sceneWhite * (step / 400) ** 3);
        expect(value).toBeGreaterThanOrEqual(last);
        last = value;
      }
    }),
  );
});

test.each([1.2, 1.4, 1.8])(
  'gamma %d is the slope at the pivot on log-log axes (definition of gamma in sensitometry)',
  (gamma) => {
    const { evaluate } = curveFunction({ ...plain, gamma });
    const step = 1e-4;
    const slope =
      Math.log(evaluate(0.18 * (1 + step)) / evaluate(0.18 / (1 + step))) / Math.log((1 + step) ** 2);
    expect(slope).toBeCloseTo(gamma, 4);
  },
);

/** By finite differences: the definition of gamma in sensitometry. */
function slopeOf(curve: CurveShape): number {
  const { evaluate } = curveFunction(curve);
  const step = 1e-4;
  const [above, below] = [evaluate(curve.pivot * (1 + step)), evaluate(curve.pivot / (1 + step))];
  return Math.log(above / below) / Math.log((1 + step) ** 2);
}

test('every curve has its gamma at the pivot, or a finding says which slope it has', () => {
  fc.assert(
    fc.property(curves, (curve) => {
      const slope = slopeOf(curve);
      const [finding] = curveFindings(curve);
      if (finding === undefined) expect(Math.abs(slope / curve.gamma - 1)).toBeLessThan(0.011);
      else expect(finding.args.slope).toBeCloseTo(slope, 1);
    }),
  );
});

test('the softest shoulder under a light pivot still has gamma 3; a far white behind a long toe cannot be as flat as 0.5', () => {
  const soft: CurveShape = { pivot: 0.5, gamma: 3, toeEv: 1, shoulder: 0.25, whiteEv: 3 };
  expect(slopeOf(soft)).toBeCloseTo(3, 2);
  expect(curveFindings(soft)).toEqual([]);
  const far: CurveShape = { pivot: 0.05, gamma: 0.5, toeEv: 1, shoulder: 1, whiteEv: 10 };
  expect(curveFindings(far)).toEqual([{ code: 'look.gamma-not-held', args: { gamma: 0.5, slope: 0.6 } }]);
  expect(slopeOf(far)).toBeCloseTo(0.6, 1);
});

test('toe and shoulder are flatter than the middle: the curve is an S on log-log axes', () => {
  const { evaluate } = curveFunction(plain);
  const slopeAt = (ev: number): number =>
    Math.log2(evaluate(0.18 * 2 ** (ev + 0.01)) / evaluate(0.18 * 2 ** (ev - 0.01))) / 0.02;
  expect(slopeAt(-9)).toBeLessThan(slopeAt(-4));
  expect(slopeAt(2)).toBeLessThan(slopeAt(0));
  expect(slopeAt(3)).toBeLessThan(slopeAt(2));
  // Linear near black, so that noise around zero stays noise around zero.
  expect(slopeAt(-16)).toBeCloseTo(1, 2);
});

test('the curve passes through zero in a straight line', () => {
  const { evaluate, slopeAtBlack } = curveFunction(plain);
  expect(evaluate(1e-7) / 1e-7 / slopeAtBlack).toBeCloseTo(1, 3);
  expect(evaluate(-0.01)).toBeCloseTo(-0.01 * slopeAtBlack, 12);
});

test('the table of the default look is within 2e-6 of the exact curve', () => {
  const { curve } = compileLook(defaultLook);
  if (curve === null || defaultLook.curve === null) throw new Error('the default look has a curve');
  const { evaluate } = curveFunction(defaultLook.curve);
  const last = curve.samples.length - 1;
  let worst = 0;
  for (let step = 0; step < 50_000; step++) {
    const scene = curve.sceneWhite * (step / 50_000) ** 2;
    const position = Math.sqrt(scene / curve.sceneWhite) * last;
    const index = Math.floor(position);
    const before = curve.samples[index] ?? Number.NaN;
    const after = curve.samples[index + 1] ?? Number.NaN;
    worst = Math.max(worst, Math.abs(before + (after - before) * (position - index) - evaluate(scene)));
  }
  expect(worst).toBeLessThan(2e-6);
});

test('the neutral look has no curve, no table and leaves light as it is', () => {
  expect(compileLook(neutralLook)).toMatchObject({ matrix: identityMatrix, curve: null, table: null });
});

test('exposure is a factor in stops', () => {
  expect(compileLook({ ...neutralLook, exposureEv: 2 }).matrix).toEqual([4, 0, 0, 0, 4, 0, 0, 0, 4]);
  expect(compileLook({ ...neutralLook, exposureEv: -1 }).matrix[0]).toBe(0.5);
});

test('a curve that would have to bend up to reach white is refused, one that just need not is accepted', () => {
  // 1.24 x 2 = 2.48 > log2(1 / 0.18) = 2.474 > 1.23 x 2 = 2.46.
  expect(curveSchema.safeParse({ ...plain, gamma: 1.23, whiteEv: 2 }).success).toBe(false);
  expect(curveSchema.safeParse({ ...plain, gamma: 1.24, whiteEv: 2 }).success).toBe(true);
});
