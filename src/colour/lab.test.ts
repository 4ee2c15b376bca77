import Color from 'colorjs.io';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readVector } from '../../test/vector.ts';
import { adaptWhite } from './adaptation.ts';
import { deltaE2000 } from './difference.ts';
import { labToXyz, xyzToLab } from './lab.ts';
import { applyMatrix, type Vector3 } from './matrix.ts';
import { oklabToXyz, xyzToOklab } from './oklab.ts';
import { type RgbSpaceName, rgbSpaces } from './rgb-spaces.ts';
import { d50Xyz, xyToXyz } from './white-points.ts';

interface Conversion {
  readonly space: string;
  readonly rgb255: Vector3;
  readonly lab_d50_littlecms: Vector3;
}

// transicc of Little CMS 2.14, relative colorimetric; see the file for the profiles.
const conversions = readVector<{ pairs: readonly Conversion[] }>('colour-littlecms-conversions.json').pairs;
const names: Readonly<Record<string, RgbSpaceName>> = {
  srgb: 'srgb',
  'display-p3': 'display-p3',
  'adobe-rgb-1998': 'adobe-rgb',
  'prophoto-rgb': 'romm',
  rec2020: 'rec2020',
};

test.each(conversions)(
  'Lab of $space $rgb255 is within 0.05 dE00 of Little CMS',
  ({ space, rgb255, lab_d50_littlecms }) => {
    const name = names[space];
    if (name === undefined) throw new Error(`unknown space ${space}`);
    const { transfer, toXyz, white } = rgbSpaces[name];
    const [r, g, b] = rgb255;
    const linear: Vector3 = [transfer.decode(r / 255), transfer.decode(g / 255), transfer.decode(b / 255)];
    const xyz = applyMatrix(adaptWhite(xyToXyz(white), d50Xyz), applyMatrix(toXyz, linear));
    // Its profiles carry matrices of 16 fractional bits and the D50 of the connection space.
    expect(deltaE2000(xyzToLab(xyz), lab_d50_littlecms)).toBeLessThan(0.05);
  },
);

const xyz = fc.tuple(
  fc.double({ min: 0, max: 1.2, noNaN: true }),
  fc.double({ min: 0, max: 1.2, noNaN: true }),
  fc.double({ min: 0, max: 1.2, noNaN: true }),
);

test('Lab and OKLab of any XYZ agree with color.js and come back', () => {
  fc.assert(
    fc.property(xyz, (value) => {
      const lab = xyzToLab(value);
      const oklab = xyzToOklab(value);
      const expectedLab = new Color('xyz-d50', value).to('lab').coords;
      const expectedOklab = new Color('xyz-d65', value).to('oklab').coords;
      for (const index of [0, 1, 2] as const) {
        expect(lab[index]).toBeCloseTo(expectedLab[index] ?? Number.NaN, 6);
        expect(oklab[index]).toBeCloseTo(expectedOklab[index] ?? Number.NaN, 6);
        expect(labToXyz(lab)[index]).toBeCloseTo(value[index], 9);
        expect(oklabToXyz(oklab)[index]).toBeCloseTo(value[index], 9);
      }
    }),
  );
});
