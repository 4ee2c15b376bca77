import Color from 'colorjs.io';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Vector3 } from '../../colour/index.ts';
import { lookFunction } from '../look-function.ts';
import { neutralLook } from '../looks.ts';
import { type ParameterName, parameters } from '../parameters.ts';
import { lookSchema } from '../schema.ts';
import { applyCdl, cdlStage } from './cdl.ts';
import { densityRangeStage } from './density-range.ts';
import { addFlare, removeFlare } from './flare.ts';
import { hueBandStage } from './hue-bands.ts';
import { hueWeight } from './hue-window.ts';
import { monochromeStage } from './monochrome.ts';
import type { Stage } from './stage.ts';
import { tintStage } from './tint.ts';

const channel = fc.double({ min: 0, max: 1, noNaN: true });
const wide = fc.double({ min: -2, max: 60, noNaN: true });
const { cdl, tint } = neutralLook;
const band = { hueDeg: 40, reachDeg: 60, lightness: 0, chroma: 0, turnDeg: 0 };

function expectSame(actual: Vector3, expected: Vector3, tolerance = 1e-6): void {
  expected.forEach((value, index) => {
    expect(Math.abs((actual[index] ?? Number.NaN) - value)).toBeLessThan(tolerance);
  });
}

test('the neutral look is the identity, far beyond black and white', () => {
  const f = lookFunction(neutralLook);
  fc.assert(fc.property(fc.tuple(wide, wide, wide), (rgb) => expectSame(f(rgb), rgb)));
});

const neutralStages: readonly (readonly [string, Stage])[] = [
  ['slope, offset, power, saturation', cdlStage(cdl)],
  ['hue bands', hueBandStage([band])],
  ['black and white', monochromeStage({ amount: 0, bands: [{ hueDeg: 10, reachDeg: 60, ev: 2 }] })],
  ['split tint', tintStage({ ...tint, darkHueDeg: 200, lightHueDeg: 20 })],
];

test.each(neutralStages)('%s at neutral values, its formula carried out, is the identity', (_, stage) => {
  fc.assert(fc.property(fc.tuple(channel, channel, channel), (rgb) => expectSame(stage(rgb), rgb)));
});

test('the CDL is the published one: out = (in x slope + offset) ^ power, then saturation about Rec. 709 luma', () => {
  // ASC CDL release 1.2; the figures worked by hand.
  const [r, g, b] = applyCdl([0.5, 0.25, 0.4], {
    slope: [1.2, 1, 0.5],
    offset: [0.1, 0, -0.3],
    power: [2, 0.5, 3],
    saturation: 1,
  });
  expect(r).toBeCloseTo(0.49, 12);
  expect(g).toBeCloseTo(0.5, 12);
  // 0.4 x 0.5 - 0.3 = -0.1: no power below zero (FwdNoClamp, Academy S-2014-006).
  expect(b).toBeCloseTo(-0.1, 12);
  const grey = applyCdl([0.2, 0.6, 0.4], { ...cdl, saturation: 0 });
  const luma = 0.2126 * 0.2 + 0.7152 * 0.6 + 0.0722 * 0.4;
  expectSame(grey, [luma, luma, luma], 1e-12);
});

test('flare is taken from the dark and leaves white: far above the veil it is a subtraction', () => {
  expect(removeFlare(1, 0.03)).toBeCloseTo(1, 12);
  // A black that reads 2 % because of a veil of 2 % becomes about half of one; 18 % loses nearly the whole veil.
  expect(removeFlare(0.02, 0.02)).toBeCloseTo(0.0102, 6);
  expect(0.18 - removeFlare(0.18, 0.02)).toBeGreaterThan(0.014);
  expect(removeFlare(-0.01, 0.02)).toBe(0);
  fc.assert(
    fc.property(channel, fc.double({ min: 0, max: 0.1, noNaN: true }), (light, flare) => {
      expect(removeFlare(addFlare(light, flare), flare)).toBeCloseTo(light, 9);
    }),
  );
});

test('bands whose centres lie a reach apart share every hue between them, and no more', () => {
  for (let deg = 0; deg <= 60; deg += 1) {
    const hue = ((330 + deg) * Math.PI) / 180;
    expect(hueWeight(hue, 330, 60) + hueWeight(hue, 390, 60)).toBeCloseTo(1, 12);
  }
  expect(hueWeight(0, 360, 60)).toBe(1);
  expect(hueWeight(Math.PI, 360, 180)).toBe(0);
});

test('a band turns and lightens its own hue and leaves the opposite hue and every grey alone', () => {
  const stage = hueBandStage([{ ...band, hueDeg: 29, lightness: 0.5, chroma: -0.5, turnDeg: 10 }]);
  const red: Vector3 = [0.5, 0.1, 0.08];
  const cyan: Vector3 = [0.1, 0.5, 0.52];
  expect(Math.abs(stage(red)[1] - red[1])).toBeGreaterThan(0.02);
  expectSame(stage(cyan), cyan);
  for (const grey of [0, 0.01, 0.18, 1]) expectSame(stage([grey, grey, grey]), [grey, grey, grey]);
});

test('chroma and turn of a band are those of OKLCh as another library has it', () => {
  // colorjs.io 0.7.1, spaces rec2020-linear and oklch.
  const stage = hueBandStage([{ ...band, hueDeg: 140, reachDeg: 180, chroma: 0.5, turnDeg: 20 }]);
  for (const rgb of [
    [0.1, 0.4, 0.2],
    [0.5, 0.45, 0.1],
    [0.02, 0.05, 0.3],
  ] as const) {
    const [L = 0, C = 0, h = 0] = new Color('rec2020-linear', [...rgb]).to('oklch').coords.map(Number);
    const away = Math.abs(((((h - 140) % 360) + 540) % 360) - 180);
    const weight = (0.5 * (1 + Math.cos((Math.PI * away) / 180)) * C) / (C + 0.05);
    const expected = new Color('oklch', [L, C * (1 + 0.5 * weight), h + 20 * weight]).to(
      'rec2020-linear',
    ).coords;
    stage(rgb).forEach((value, channel) => {
      expect(value).toBeCloseTo(Number(expected[channel]), 5);
    });
  }
});

test('black and white keeps the luminance of greys and of every colour without bands; a band lightens its hue', () => {
  const plain = monochromeStage({ amount: 1, bands: [] });
  // ITU-R BT.2020-2, table 4: Y = 0.2627 R + 0.6780 G + 0.0593 B.
  expectSame(plain([1, 0, 0]), [0.2627, 0.2627, 0.2627], 1e-4);
  expectSame(plain([0.18, 0.18, 0.18]), [0.18, 0.18, 0.18]);
  const red = monochromeStage({ amount: 1, bands: [{ hueDeg: 29, reachDeg: 90, ev: 1 }] });
  expect(red([0.4, 0.1, 0.1])[0]).toBeGreaterThan(plain([0.4, 0.1, 0.1])[0] * 1.3);
  expect(red([0.4, 0.1, 0.1])[0]).toBeLessThan(plain([0.4, 0.1, 0.1])[0] * 2);
  expectSame(red([0.18, 0.18, 0.18]), [0.18, 0.18, 0.18]);
});

test('a split tint colours dark and light tones apart and leaves black and white', () => {
  const stage = tintStage({ ...tint, darkHueDeg: 250, darkChroma: 0.05, lightHueDeg: 80, lightChroma: 0.05 });
  const dark = stage([0.03, 0.03, 0.03]);
  const light = stage([0.6, 0.6, 0.6]);
  expect(dark[2]).toBeGreaterThan(dark[0]);
  expect(light[0]).toBeGreaterThan(light[2]);
  expectSame(stage([0, 0, 0]), [0, 0, 0]);
  expectSame(stage([1, 1, 1]), [1, 1, 1]);
});

test('a density range of 2 makes the deepest black a hundredth of white (ISO 5-1: density is -log10 of reflectance)', () => {
  expectSame(densityRangeStage(2)([0, 0.5, 1]), [0.01, 0.505, 1], 1e-12);
});

/** Looks whose numbers stand at the ends of their ranges or at rest, any with any. */
const ends = <Name extends ParameterName>(name: Name): fc.Arbitrary<number> => {
  const { min, max, start } = parameters[name];
  return fc.constantFrom(min, start, max);
};
const triple = (name: ParameterName): fc.Arbitrary<[number, number, number]> =>
  fc.tuple(ends(name), ends(name), ends(name));
const hardLooks = fc
  .record({
    exposureEv: ends('exposureEv'),
    flare: ends('flare'),
    curve: fc.option(
      fc.record({
        ...{ pivot: fc.constant(0.18), gamma: fc.constantFrom(1.3, 3), toeEv: ends('curve.toeEv') },
        ...{ shoulder: ends('curve.shoulder'), whiteEv: fc.constantFrom(2, 10) },
        densityRange: fc.option(ends('curve.densityRange')),
      }),
    ),
    cdl: fc.record({
      ...{ slope: triple('cdl.slope'), offset: triple('cdl.offset'), power: triple('cdl.power') },
      // Never at rest: a look that does nothing on display light hands on what it is given.
      saturation: fc.constantFrom(0, 8),
    }),
    bands: fc.array(
      fc.record({
        ...{ hueDeg: ends('bands.hueDeg'), reachDeg: ends('bands.reachDeg'), chroma: ends('bands.chroma') },
        ...{ lightness: ends('bands.lightness'), turnDeg: ends('bands.turnDeg') },
      }),
      { maxLength: 3 },
    ),
    monochrome: fc.record({ amount: ends('monochrome.amount') }),
    tint: fc.record({ darkChroma: ends('tint.darkChroma'), lightChroma: ends('tint.lightChroma') }),
  })
  .map((parts) => lookSchema.parse({ ...neutralLook, ...parts }));

test('every look gives finite light within -1 … 4 for any light', () => {
  fc.assert(
    fc.property(hardLooks, fc.tuple(wide, wide, wide), (look, rgb) => {
      for (const value of lookFunction(look)(rgb)) expect(value >= -1 && value <= 4).toBe(true);
    }),
    { numRuns: 500 },
  );
});
