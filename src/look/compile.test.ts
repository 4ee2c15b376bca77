import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readVector } from '../../test/vector.ts';
import {
  adaptWhite,
  applyMatrix,
  d50Xyz,
  d65Xyz,
  labToXyz,
  rgbSpaces,
  type Vector3,
} from '../colour/index.ts';
import { type CompiledLook, compileLook } from './compile.ts';
import { fitGamut } from './fit-gamut.ts';
import { mapKeepingHue } from './keep-hue.ts';
import { lookFunction, workingLuminance } from './look-function.ts';
import { defaultLook, neutralLook } from './looks.ts';
import { type Look, type LookInput, lookSchema } from './schema.ts';
import type { Stage } from './stages/stage.ts';
import { interpolate, lookUpLattice } from './table/lattice.ts';
import { compareStages, probeColours, tableErrorGoal } from './table/table-error.ts';
import { tableHash } from './table-hash.ts';
import { toneFunction } from './tone.ts';

function lookOf(parts: Partial<LookInput>): Look {
  return lookSchema.parse({ ...defaultLook, ...parts });
}

/** Looks as somebody would make them: every part that is in the table, alone and together, at a common strength. */
const looks: readonly (readonly [string, Look])[] = [
  [
    'slope, offset and power',
    lookOf({ cdl: { slope: [1.06, 1, 0.96], offset: [0.01, 0, 0.015], power: [1.05, 1, 0.97] } }),
  ],
  ['saturation', lookOf({ cdl: { saturation: 1.25 } })],
  [
    'three bands',
    lookOf({
      bands: [
        { hueDeg: 50, reachDeg: 60, lightness: 0.2, chroma: -0.1, turnDeg: 4 },
        { hueDeg: 140, reachDeg: 70, lightness: -0.25, chroma: -0.15, turnDeg: -8 },
        { hueDeg: 255, reachDeg: 60, lightness: -0.3, chroma: 0.15, turnDeg: 5 },
      ],
    }),
  ],
  [
    'split tint',
    lookOf({ tint: { darkHueDeg: 250, darkChroma: 0.025, lightHueDeg: 75, lightChroma: 0.02 } }),
  ],
  ['black and white', lookOf({ monochrome: { amount: 1, bands: [{ hueDeg: 40, reachDeg: 90, ev: 0.4 }] } })],
  [
    'a paper',
    lookOf({ curve: { pivot: 0.18, gamma: 1.5, toeEv: 5, shoulder: 1.2, whiteEv: 2.8, densityRange: 2.1 } }),
  ],
  [
    'all of it',
    lookOf({
      exposureEv: 0.4,
      flare: 0.01,
      cdl: { slope: [1.03, 1, 0.98], saturation: 1.1 },
      bands: [
        { hueDeg: 50, reachDeg: 80, lightness: 0.15, chroma: -0.08, turnDeg: 3 },
        { hueDeg: 250, reachDeg: 80, lightness: -0.2, chroma: 0.1, turnDeg: 4 },
      ],
      tint: { darkHueDeg: 250, darkChroma: 0.015, lightHueDeg: 75, lightChroma: 0.01 },
    }),
  ],
];

interface Patch {
  readonly lab_d50: Vector3;
}

/** The 24 patches of both editions of the chart, as published, at eight exposures. Scene light, linear Rec.2020. */
const published: readonly Vector3[] = ['before', 'after'].flatMap((edition) =>
  readVector<{ patches: readonly Patch[] }>(`colour-chart24-${edition}-nov2014.json`).patches.flatMap(
    ({ lab_d50 }) => {
      const [r, g, b] = applyMatrix(
        rgbSpaces.rec2020.fromXyz,
        applyMatrix(adaptWhite(d50Xyz, d65Xyz), labToXyz(lab_d50)),
      );
      return [-4, -3, -2, -1, -0.5, 0, 0.5, 1].map((ev): Vector3 => [r * 2 ** ev, g * 2 ** ev, b * 2 ** ev]);
    },
  ),
);

/** Not the colours that a table measures itself on. */
const scenes = probeColours(9000).slice(5000);

/** A compiled look as an executor carries it out, in the plain form. */
function executed({ matrix, table }: CompiledLook, look: Look): Stage {
  const tone = toneFunction(look, table !== null);
  return (rgb) => {
    const scene = applyMatrix(matrix, rgb);
    const shown = tone === null ? scene : mapKeepingHue(scene, tone.evaluate);
    return table === null ? shown : lookUpLattice(table, fitGamut(shown, workingLuminance));
  };
}

test.each(looks)('33 nodes: %s is within the goal on published colours and on random scenes', (_, look) => {
  const compiled = compileLook(look);
  expect(compiled.table?.size).toBe(33);
  for (const colours of [published, scenes]) {
    const { mean, p999 } = compareStages(lookFunction(look), executed(compiled, look), colours);
    expect(mean).toBeLessThan(tableErrorGoal.mean);
    expect(p999).toBeLessThan(tableErrorGoal.p999);
  }
});

test('the goal is that of the design: mean 0.05, 99.9th percentile 0.5 in CIEDE2000', () => {
  expect(tableErrorGoal).toEqual({ mean: 0.05, p999: 0.5 });
});

test('a table states its error: what it says is what other colours show', () => {
  const look = lookOf({ bands: [{ hueDeg: 140, reachDeg: 50, lightness: -0.6, chroma: -0.5, turnDeg: 20 }] });
  const compiled = compileLook(look);
  const seen = compareStages(lookFunction(look), executed(compiled, look), scenes);
  const stated = compiled.table?.error ?? { mean: Number.NaN, p999: Number.NaN };
  expect(stated.mean / seen.mean).toBeGreaterThan(0.7);
  expect(stated.mean / seen.mean).toBeLessThan(1.4);
});

test('a hard look gets 65 nodes where 33 would miss the goal, and is nearer then', () => {
  const look = lookOf({
    bands: [
      { hueDeg: 35, reachDeg: 45, lightness: 0.8, chroma: 0.5, turnDeg: 20 },
      { hueDeg: 140, reachDeg: 60, lightness: -0.8, chroma: -0.5, turnDeg: -20 },
      { hueDeg: 255, reachDeg: 50, lightness: -0.7, chroma: 0.5, turnDeg: 15 },
    ],
  });
  const coarse = compileLook(look);
  const fine = compileLook(look, undefined, 'as-needed');
  expect([coarse.table?.size, fine.table?.size]).toEqual([33, 65]);
  expect(fine.table?.error.mean).toBeLessThan((coarse.table?.error.mean ?? 0) / 2);
});

test('17 nodes are for dragging: a table of its size, which says how much further off it is', () => {
  const look = lookOf({ tint: { darkChroma: 0.03, lightChroma: 0.02 } });
  const [quick, usual] = [compileLook(look, undefined, 17).table, compileLook(look).table];
  expect(quick?.values.length).toBe(17 ** 3 * 3);
  expect(quick?.error.mean).toBeGreaterThan(usual?.error.mean ?? 1);
});

test('tone alone has no table; a part with colour has one', () => {
  expect(compileLook(defaultLook).table).toBeNull();
  expect(compileLook({ ...neutralLook, flare: 0.02 }).table).toBeNull();
  expect(compileLook({ ...neutralLook, flare: 0.02 }).curve).not.toBeNull();
  expect(compileLook(lookOf({ cdl: { saturation: 0 } })).table).not.toBeNull();
});

test('the same look gives the same numbers; another one others', () => {
  const [, look] = looks[2] ?? ['', defaultLook];
  expect(tableHash(compileLook(look))).toBe(
    tableHash(compileLook(lookSchema.parse(JSON.parse(JSON.stringify(look))))),
  );
  expect(tableHash(compileLook(look))).not.toBe(tableHash(compileLook({ ...look, exposureEv: 0.1 })));
});

test('tetrahedral interpolation is exact for every linear function, and continuous where tetrahedra meet', () => {
  const size = 5;
  const values: number[] = [];
  for (let r = 0; r < size; r++)
    for (let g = 0; g < size; g++)
      for (let b = 0; b < size; b++) values.push(r + 2 * g - b, 3 - g, b * 0.5 + r);
  const share = fc.double({ min: 0, max: 1, noNaN: true });
  fc.assert(
    fc.property(fc.tuple(share, share, share), (at) => {
      const [r, g, b] = [at[0] * 4, at[1] * 4, at[2] * 4];
      const expected = [r + 2 * g - b, 3 - g, b * 0.5 + r];
      interpolate(values, size, at).forEach((value, channel) => {
        expect(value).toBeCloseTo(expected[channel] ?? 9, 9);
      });
    }),
  );
  expect(interpolate(values, size, [2, 2, 2])).toEqual(interpolate(values, size, [1, 1, 1]));
});

test('tetrahedral interpolation of a known cell, by hand', () => {
  // Corners 0 and 1 of each axis; only red-green (1, 1, 0) is 1. At (0.6, 0.3, 0.1): red > green > blue, so the weight of
  // (1, 1, 0) is green - blue = 0.2 (Academy S-2014-006, appendix A).
  const values = new Float32Array(24);
  values[(1 * 4 + 1 * 2 + 0) * 3] = 1;
  expect(interpolate(values, 2, [0.6, 0.3, 0.1])[0]).toBeCloseTo(0.2, 6);
});
