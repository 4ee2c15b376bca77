import Color from 'colorjs.io';
import { expect, test } from 'vitest';
import { readVector } from '../../test/vector.ts';
import { adaptWhite } from './adaptation.ts';
import { applyMatrix, type Matrix3 } from './matrix.ts';
import { linearRgbToRgb, type RgbSpaceName, rgbSpaceNames, rgbSpaces } from './rgb-spaces.ts';
import { d50Xyz, d65Xyz } from './white-points.ts';

interface SpacesVector {
  readonly spaces: Readonly<Record<string, { linear_rgb_to_xyz: number[][]; xyz_to_linear_rgb: number[][] }>>;
  readonly bradford_D65_to_D50: number[][];
  readonly bradford_D50_to_D65: number[][];
}

// CSS Color 4 sample code (W3C), recomputed from the chromaticities of the standards.
const vector = readVector<SpacesVector>('colour-rgb-spaces.json');
const vectorNames: Readonly<Record<RgbSpaceName, string>> = {
  srgb: 'srgb',
  'display-p3': 'display-p3',
  rec2020: 'rec2020',
  'adobe-rgb': 'adobe-rgb-1998',
  romm: 'prophoto-rgb',
};

function expectMatrix(actual: Matrix3, expected: readonly number[][], digits: number): void {
  expected.flat().forEach((value, index) => {
    expect(actual[index]).toBeCloseTo(value, digits);
  });
}

test.each(rgbSpaceNames)('the matrices of %s are those of CSS Color 4 to 12 digits', (name) => {
  const expected = vector.spaces[vectorNames[name]];
  if (expected === undefined) throw new Error(`no vector for ${name}`);
  expectMatrix(rgbSpaces[name].toXyz, expected.linear_rgb_to_xyz, 12);
  expectMatrix(rgbSpaces[name].fromXyz, expected.xyz_to_linear_rgb, 12);
});

test('Bradford adaptation between D65 and D50 is that of CSS Color 4 to 12 digits', () => {
  expectMatrix(adaptWhite(d65Xyz, d50Xyz), vector.bradford_D65_to_D50, 12);
  expectMatrix(adaptWhite(d50Xyz, d65Xyz), vector.bradford_D50_to_D65, 12);
});

// color.js encodes its `rec2020` for displays (BT.1886), so that space is compared in linear light only.
const colorJsNames = {
  srgb: 'srgb',
  'display-p3': 'p3',
  'adobe-rgb': 'a98rgb',
  romm: 'prophoto',
} as const;

test.each(Object.entries(colorJsNames))(
  '%s encodes as color.js does, below 0 and above 1 too',
  (name, id) => {
    const { decode, encode } = rgbSpaces[name as keyof typeof colorJsNames].transfer;
    for (let code = -0.5; code <= 1.5; code += 1 / 64) {
      const [linear] = new Color(id, [code, code, code]).to(`${id}-linear`).coords;
      expect(decode(code)).toBeCloseTo(linear ?? Number.NaN, 9);
      expect(encode(decode(code))).toBeCloseTo(code, 9);
    }
  },
);

test('the camera encoding of Rec. 2020 agrees with color.js, which calls it --rec2020-oetf', () => {
  const { decode, encode } = rgbSpaces.rec2020.transfer;
  for (let code = 0; code <= 1; code += 1 / 64) {
    const [linear] = new Color('--rec2020-oetf', [code, code, code]).to('rec2020-linear').coords;
    expect(decode(code)).toBeCloseTo(linear ?? Number.NaN, 9);
    expect(encode(decode(code))).toBeCloseTo(code, 9);
  }
});

test('linear light goes from any space to any other as color.js takes it, and white goes to white', () => {
  const ids: Readonly<Record<RgbSpaceName, string>> = {
    srgb: 'srgb-linear',
    'display-p3': 'p3-linear',
    rec2020: 'rec2020-linear',
    'adobe-rgb': 'a98rgb-linear',
    romm: 'prophoto-linear',
  };
  for (const from of rgbSpaceNames) {
    for (const to of rgbSpaceNames) {
      const matrix = linearRgbToRgb(rgbSpaces[from], rgbSpaces[to]);
      const expected = new Color(ids[from], [0.7, 0.1, 0.4]).to(ids[to]).coords;
      applyMatrix(matrix, [0.7, 0.1, 0.4]).forEach((value, index) => {
        expect(value).toBeCloseTo(expected[index] ?? Number.NaN, 9);
      });
      for (const value of applyMatrix(matrix, [1, 1, 1])) expect(value).toBeCloseTo(1, 12);
    }
  }
});
