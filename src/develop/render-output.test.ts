import fc from 'fast-check';
import { expect, test } from 'vitest';
import { mosaics } from '../../test/render/mosaics.ts';
import {
  adaptWhite,
  applyMatrix,
  d65Xyz,
  invertMatrix,
  mapIntoGamut,
  type RgbSpaceName,
  rgbSpaceNames,
  rgbSpaces,
  type Vector3,
  xyToXyz,
} from '../colour/index.ts';
import { compileLook, defaultLook, neutralLook } from '../look/index.ts';
import { encodeThrough } from './kernels/encode-through.ts';
import { mapGamut } from './kernels/map-gamut.ts';
import { encodeCurve, gamutNumbers, outputSpace } from './output-space.ts';
import { renderMosaic } from './render.ts';
import { outputTaker, renderOutput } from './render-output.ts';

const light = fc.double({ min: 0, max: 1, noNaN: true });

/** Working light to linear RGB of a space by the plain functions of the room colour. */
function reference(name: RgbSpaceName, wide: Vector3): Vector3 {
  const { toXyz } = outputSpace(name, 16);
  const fromXyz = invertMatrix(toXyz);
  if (fromXyz === null) throw new Error('no inverse');
  return mapIntoGamut(applyMatrix(fromXyz, applyMatrix(rgbSpaces.rec2020.toXyz, wide)), toXyz);
}

function numbersOf(name: RgbSpaceName): Float64Array {
  const numbers = gamutNumbers(outputSpace(name, 16));
  if (numbers === null) throw new Error('no inverse');
  return numbers;
}

test.each(rgbSpaceNames)('the kernel maps working light into %s as the reference does', (name) => {
  const numbers = numbersOf(name);
  fc.assert(
    fc.property(fc.tuple(light, light, light), (wide) => {
      const rgb = Float32Array.from(wide);
      const [r = 0, g = 0, b = 0] = rgb;
      const expected = reference(name, [r, g, b]);
      mapGamut(rgb, 1, numbers);
      // Half a code of 16 bits where the encoding is steepest but for black; the searches take the same steps.
      expected.forEach((value, channel) => {
        expect(Math.abs((rgb[channel] ?? 0) - value)).toBeLessThan(2e-6);
      });
    }),
    { numRuns: 500 },
  );
});

test.each(rgbSpaceNames)('every light is encoded to the nearest code of %s, 8 bits and 16', (name) => {
  const { transfer } = rgbSpaces[name];
  for (const depth of [8, 16] as const) {
    const most = 2 ** depth - 1;
    const curve = encodeCurve(outputSpace(name, depth));
    const out = depth === 8 ? new Uint8Array(1) : new Uint16Array(1);
    fc.assert(
      fc.property(
        light.map((value) => value ** 3),
        (value) => {
          encodeThrough(Float32Array.of(value), 1, curve, out, 0);
          const exact = most * transfer.encode(Math.fround(value));
          // Half a code is rounding; a pure power is infinitely steep at black, where the first sample is half a code off.
          expect(Math.abs((out[0] ?? 0) - exact)).toBeLessThan(depth === 8 ? 0.51 : 1.02);
        },
      ),
      { numRuns: 2000 },
    );
  }
});

test('codes of light outside 0 … 1 and of what is no number are held at the ends', () => {
  const curve = encodeCurve(outputSpace('adobe-rgb', 16));
  const out = new Uint16Array(5);
  encodeThrough(Float32Array.of(-1, 0, 1, 7, Number.NaN), 5, curve, out, 0);
  expect([...out]).toEqual([0, 0, 65_535, 65_535, 0]);
});

test('sRGB of 8 bits is the picture a screen is given, but for colours outside sRGB', () => {
  fc.assert(
    fc.property(mosaics, (mosaic) => {
      const look = compileLook(defaultLook);
      const screen = renderMosaic(mosaic, look, 'half').picture;
      const { picture } = renderOutput(mosaic, look, 'half', outputSpace('srgb', 8));
      expect([picture.widthPx, picture.heightPx]).toEqual([screen.widthPx, screen.heightPx]);
      for (let pixel = 0; pixel < screen.data.length; pixel += 3) {
        const codes = screen.data.subarray(pixel, pixel + 3);
        if (codes.some((code) => code === 0 || code === 255)) continue;
        codes.forEach((code, channel) => {
          expect(Math.abs(code - (picture.data[pixel + channel] ?? 0))).toBeLessThanOrEqual(1);
        });
      }
    }),
  );
});

test('both depths and all spaces hold the same colour: white stays white, a mid grey keeps its luminance', () => {
  for (const name of rgbSpaceNames) {
    const { transfer, toXyz, white } = rgbSpaces[name];
    const { picture, take } = outputTaker(
      { widthPx: 2, heightPx: 1 },
      { widthPx: 2, heightPx: 1 },
      outputSpace(name, 16),
    );
    take(Float32Array.of(1, 1, 1, 0.18, 0.18, 0.18), 0, 1);
    const xyz = [0, 3].map((at) => {
      const [r = 0, g = 0, b = 0] = [...picture.data.subarray(at, at + 3)].map((code) => code / 65_535);
      const own = applyMatrix(toXyz, [transfer.decode(r), transfer.decode(g), transfer.decode(b)]);
      return applyMatrix(adaptWhite(xyToXyz(white), d65Xyz), own);
    });
    expect([...picture.data.subarray(0, 3)]).toEqual([65_535, 65_535, 65_535]);
    // A code of 16 bits at mid grey is 3e-5 of light at most.
    d65Xyz.forEach((value, at) => {
      expect(xyz[1]?.[at]).toBeCloseTo(0.18 * value, 4);
    });
  }
});

test('a reduced picture mixes light before colours are mapped', () => {
  // Half Rec.2020 green, half its opposite: the mixture is a grey that fits, though neither half does.
  const strip = Float32Array.of(0, 1, 0, 1, 0, 1);
  const { picture, take } = outputTaker(
    { widthPx: 2, heightPx: 1 },
    { widthPx: 1, heightPx: 1 },
    outputSpace('srgb', 8),
  );
  take(strip, 0, 1);
  // IEC 61966-2-1: linear 0.5 is code 188.
  expect([...picture.data]).toEqual([188, 188, 188]);
});

test('a region in an output space is the part of the whole, to the code', () => {
  const demosaicable = mosaics.filter(({ widthPx, heightPx }) => Math.min(widthPx, heightPx) >= 3);
  fc.assert(
    fc.property(demosaicable, (mosaic) => {
      const look = compileLook(neutralLook);
      const output = outputSpace('display-p3', 16);
      const whole = renderOutput(mosaic, look, 'full', output).picture;
      const region = { leftPx: 1, topPx: 1, widthPx: whole.widthPx - 1, heightPx: whole.heightPx - 1 };
      const part = renderOutput(mosaic, look, { region }, output).picture;
      for (let row = 0; row < part.heightPx; row++) {
        const from = ((row + 1) * whole.widthPx + 1) * 3;
        expect(part.data.slice(row * part.widthPx * 3, (row + 1) * part.widthPx * 3)).toEqual(
          whole.data.slice(from, from + part.widthPx * 3),
        );
      }
    }),
    { numRuns: 30 },
  );
});
