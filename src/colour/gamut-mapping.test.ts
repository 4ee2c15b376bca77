import Color from 'colorjs.io';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { deltaE2000 } from './difference.ts';
import { mapIntoGamut } from './gamut-mapping.ts';
import { xyzToLab } from './lab.ts';
import { applyMatrix, type Vector3 } from './matrix.ts';
import { xyzToOklab } from './oklab.ts';
import { linearRgbToRgb, rgbSpaces } from './rgb-spaces.ts';

const { srgb, rec2020 } = rgbSpaces;
const toSrgb = linearRgbToRgb(rec2020, srgb);

/** Linear sRGB of linear Rec.2020, fitted. */
function mapped(wide: Vector3): Vector3 {
  return mapIntoGamut(applyMatrix(toSrgb, wide), srgb.toXyz);
}

const light = fc.double({ min: 0, max: 1, noNaN: true });
const wideColours = fc.tuple(light, light, light);

test('colours of Rec.2020 go into sRGB as color.js maps them, which follows CSS Color 4', () => {
  fc.assert(
    fc.property(wideColours, (wide) => {
      const color = new Color('xyz-d65', [...applyMatrix(rec2020.toXyz, wide)]);
      const expected = color.toGamut({ space: 'srgb-linear', method: 'css' }).to('srgb-linear').coords;
      const actual = mapped(wide);
      const lab = (rgb: Vector3): Vector3 => xyzToLab(applyMatrix(srgb.toXyz, rgb));
      const [r, g, b] = expected.map(Number);
      // Two searches that end within 0.0001 of OKLCh chroma of each other.
      expect(deltaE2000(lab(actual), lab([r ?? 0, g ?? 0, b ?? 0]))).toBeLessThan(0.05);
    }),
    { numRuns: 400 },
  );
});

test('what fits is left alone, to the last bit', () => {
  fc.assert(
    fc.property(wideColours, (rgb) => {
      expect(mapIntoGamut(rgb, srgb.toXyz)).toEqual(rgb);
    }),
  );
});

test('a mapped colour lies within what is just noticed of one with its own lightness and hue', () => {
  fc.assert(
    fc.property(wideColours, (wide) => {
      const [L, a, b] = xyzToOklab(applyMatrix(rec2020.toXyz, wide));
      const after = xyzToOklab(applyMatrix(srgb.toXyz, mapped(wide)));
      const chroma = Math.hypot(a, b);
      // The nearest point of the half line of equal lightness and hue.
      const along = chroma > 0 ? Math.max(0, (after[1] * a + after[2] * b) / chroma ** 2) : 0;
      const off = Math.hypot(after[0] - L, after[1] - along * a, after[2] - along * b);
      // CSS Color 4, 13.2.2: JND 0.02.
      expect(off).toBeLessThanOrEqual(0.0201);
    }),
    { numRuns: 1000 },
  );
});

test('lighter than white is white, darker than black is black', () => {
  expect(mapIntoGamut([1.5, 1.4, 1.6], srgb.toXyz)).toEqual([1, 1, 1]);
  expect(mapIntoGamut([-0.1, -0.1, -0.1], srgb.toXyz)).toEqual([0, 0, 0]);
});
