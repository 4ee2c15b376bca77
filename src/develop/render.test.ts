import { expect, test } from 'vitest';
import { rgbSpaces } from '../colour/index.ts';
import type { Mosaic } from '../facts/index.ts';
import { cutOut } from '../image/index.ts';
import { compileLook, defaultLook, neutralLook } from '../look/index.ts';
import { linearMosaic } from './linear.ts';
import { clipRegion, fullPixelsMax, planFrame } from './plan-frame.ts';
import { renderMosaic } from './render.ts';

/**
 * A mosaic of a neutral scene, 1 = diffuse white. `level` takes the place in half-size pixels, whose centres are whole
 * numbers; the samples of the mosaic lie a quarter beside them.
 */
function neutralScene(
  widthPx: number,
  heightPx: number,
  level: (row: number, column: number) => number,
): Mosaic {
  const multipliers = [2, 1, 1.5] as const;
  const filters = [0, 1, 1, 2] as const;
  const black = 512;
  const white = 16_383;
  const values = Uint16Array.from({ length: widthPx * heightPx }, (_, index) => {
    const row = Math.floor(index / widthPx);
    const column = index % widthPx;
    const filter = filters[(row % 2) * 2 + (column % 2)] ?? 1;
    // Saturation lies half a stop above diffuse white, as baselineExposureEv states below.
    const light = level(row / 2 - 0.25, column / 2 - 0.25) / Math.SQRT2 / (multipliers[filter] ?? 1);
    return Math.min(white, Math.round(black + light * (white - black)));
  });
  return {
    values,
    widthPx,
    heightPx,
    filters,
    blackLevels: [black, black, black, black],
    whiteLevel: white,
    asShotMultipliers: multipliers,
    xyzToCamera: [0.65, -0.1, -0.08, -0.4, 1.2, 0.2, -0.05, 0.2, 0.6],
    orientation: 1,
    baselineExposureEv: 0.5,
  };
}

test('18 % grey comes out as the sRGB code of 18 %, 118, with and without the default look', () => {
  const mosaic = neutralScene(8, 8, () => 0.18);
  // IEC 61966-2-1: 255 (1.055 x 0.18^(1/2.4) - 0.055) = 117.6.
  for (const look of [defaultLook, neutralLook]) {
    const { picture } = renderMosaic(mosaic, compileLook(look), 'half');
    for (const code of picture.data) expect(Math.abs(code - 117.6)).toBeLessThan(1.1);
  }
});

test('a grey ramp stays neutral to one code and rises from black to white', () => {
  const mosaic = neutralScene(512, 4, (_, column) => Math.max(0, (column / 255) * 2.2));
  const { picture } = renderMosaic(mosaic, compileLook(defaultLook), 'half');
  let last = -1;
  for (let column = 0; column < 256; column++) {
    const [r = 0, g = 0, b = 0] = picture.data.subarray(column * 3, column * 3 + 3);
    expect(Math.max(r, g, b) - Math.min(r, g, b)).toBeLessThanOrEqual(1);
    expect(g).toBeGreaterThanOrEqual(last);
    last = g;
  }
  expect(picture.data[0]).toBeLessThanOrEqual(2);
  expect(last).toBe(255);
});

test('exposure moves the scene by stops: +1 EV of 9 % is 18 %', () => {
  const { picture } = renderMosaic(
    neutralScene(4, 4, () => 0.09),
    compileLook({ ...neutralLook, exposureEv: 1 }),
    'half',
  );
  expect(Math.abs((picture.data[1] ?? 0) - 117.6)).toBeLessThan(1.1);
});

test('BaselineExposure raises the scene (DNG 1.7.1)', () => {
  const mosaic = { ...neutralScene(4, 4, () => 0.09), baselineExposureEv: 1.5 };
  const { picture } = renderMosaic(mosaic, compileLook(neutralLook), 'half');
  expect(Math.abs((picture.data[1] ?? 0) - 117.6)).toBeLessThan(1.1);
});

test('a black level of its own for each position leaves no pattern', () => {
  const even = neutralScene(8, 8, () => 0.18);
  const offsets = [40, -7, 13, 0];
  const uneven: Mosaic = {
    ...even,
    values: even.values.map((value, index) => {
      const row = Math.floor(index / 8);
      return value + (offsets[(row % 2) * 2 + (index % 2)] ?? 0);
    }),
    blackLevels: [552, 505, 525, 512],
  };
  const expected = renderMosaic(even, compileLook(defaultLook), 'half').picture.data;
  renderMosaic(uneven, compileLook(defaultLook), 'half').picture.data.forEach((code, index) => {
    expect(Math.abs(code - (expected[index] ?? 0))).toBeLessThanOrEqual(1);
  });
});

test('half size is half the edges, an odd last row and column dropped; orientation 6 turns it', () => {
  const mosaic = neutralScene(9, 7, (_, column) => Math.max(0, (column - 0.5) / 3));
  expect(renderMosaic(mosaic, compileLook(neutralLook), 'half').picture).toMatchObject({
    widthPx: 4,
    heightPx: 3,
  });
  const turned = renderMosaic({ ...mosaic, orientation: 6 }, compileLook(neutralLook), 'half').picture;
  expect(turned).toMatchObject({ widthPx: 3, heightPx: 4 });
  // Turned clockwise, the stored left edge, which is dark, is on top.
  expect(turned.data[1]).toBeLessThan(20);
  expect(turned.data.at(-2)).toBeGreaterThan(150);
});

test('a long edge reduces in linear light: stripes from 10 to 90 % become 50 % light, code 188', () => {
  // Four half-size pixels, one pixel of the result, hold one wave.
  const mosaic = neutralScene(128, 128, (_, column) => 0.5 + 0.4 * Math.sin((column * Math.PI) / 2));
  const { picture } = renderMosaic(mosaic, compileLook(neutralLook), { longEdgePx: 16 });
  expect(picture).toMatchObject({ widthPx: 16, heightPx: 16 });
  // IEC 61966-2-1: 255 (1.055 x 0.5^(1/2.4) - 0.055) = 187.5.
  // Left and right the pattern ends.
  for (let column = 1; column < 15; column++) {
    const code = picture.data[(8 * 16 + column) * 3 + 1] ?? 0;
    expect(Math.abs(code - 187.5)).toBeLessThan(1.1);
  }
});

test('a long edge beyond half size is reduced from full size, and never enlarged', () => {
  const mosaic = neutralScene(16, 8, () => 0.5);
  const sizes = [8, 9, 12, 16, 4000].map((longEdgePx) => {
    const { widthPx, heightPx } = renderMosaic(mosaic, compileLook(neutralLook), { longEdgePx }).picture;
    return [widthPx, heightPx];
  });
  expect(sizes).toEqual([
    [8, 4],
    [9, 5],
    [12, 6],
    [16, 8],
    [16, 8],
  ]);
});

test('full size has every pixel, an odd last row and column too, and a grey in it is the same grey', () => {
  const { picture } = renderMosaic(
    neutralScene(9, 7, () => 0.18),
    compileLook(defaultLook),
    'full',
  );
  expect(picture).toMatchObject({ widthPx: 9, heightPx: 7 });
  for (const code of picture.data) expect(Math.abs(code - 117.6)).toBeLessThan(1.1);
});

const orientations = [1, 2, 3, 4, 5, 6, 7, 8] as const;

test.each(orientations)(
  'a region is the part of the upright full-size picture, orientation %d',
  (orientation) => {
    const mosaic: Mosaic = {
      ...neutralScene(31, 22, (row, column) => ((row * 7 + column * 5) % 11) / 8),
      orientation,
    };
    const look = compileLook(defaultLook);
    const full = renderMosaic(mosaic, look, 'full').picture;
    const region = { leftPx: 3, topPx: 6, widthPx: 9, heightPx: 5 };
    expect(renderMosaic(mosaic, look, { region }).picture).toEqual(cutOut(full, region));
    const whole = { leftPx: 0, topPx: 0, widthPx: full.widthPx, heightPx: full.heightPx };
    expect(renderMosaic(mosaic, look, { region: whole }).picture).toEqual(full);
  },
);

test('a region that reaches beyond the picture is cut at its edges; fractions take the pixels they touch', () => {
  const picture = { widthPx: 20, heightPx: 10 };
  const region = { leftPx: -3, topPx: 4.5, widthPx: 7.5, heightPx: 100 };
  expect(clipRegion(region, picture)).toEqual({ leftPx: 0, topPx: 4, widthPx: 5, heightPx: 6 });
});

test.each([
  ['beside', { leftPx: 20, topPx: 0, widthPx: 5, heightPx: 5 }],
  ['above', { leftPx: 0, topPx: -5, widthPx: 5, heightPx: 5 }],
  ['without an extent', { leftPx: 3, topPx: 3, widthPx: 0, heightPx: 5 }],
  ['that is no number', { leftPx: Number.NaN, topPx: 0, widthPx: 5, heightPx: 5 }],
])('a region %s is refused by code', (_, region) => {
  expect(() => clipRegion(region, { widthPx: 20, heightPx: 10 })).toThrow(
    expect.objectContaining({ code: 'region-outside' }),
  );
});

test('full size is refused just above its bound, while half size and a region of the same raw are not', () => {
  // Sizes only: nothing is rendered.
  const ofSize = (widthPx: number, heightPx: number): Mosaic => ({
    ...neutralScene(4, 4, () => 1),
    widthPx,
    heightPx,
  });
  const tooLarge = expect.objectContaining({ code: 'raw-too-large' });
  const allowed = ofSize(16_000, fullPixelsMax / 16_000);
  const above = ofSize(16_000, fullPixelsMax / 16_000 + 1);
  expect(planFrame(allowed, 'full').target).toEqual({ widthPx: 16_000, heightPx: 10_000 });
  expect(() => planFrame(above, 'full')).toThrow(tooLarge);
  expect(() => planFrame(above, { longEdgePx: 12_000 })).toThrow(tooLarge);
  expect(planFrame(above, 'half').from).toBe('half');
  const region = { leftPx: 0, topPx: 0, widthPx: 100, heightPx: 100 };
  expect(planFrame(above, { region }).from).toBe('full');
});

test('a mosaic of fewer than three rows or columns is refused at full size', () => {
  const code = 'raw-unsupported-mosaic';
  const thin = neutralScene(40, 2, () => 1);
  expect(() => planFrame(thin, 'full')).toThrow(expect.objectContaining({ code }));
  expect(
    renderMosaic(
      neutralScene(3, 3, () => 0.18),
      compileLook(neutralLook),
      'full',
    ).picture.widthPx,
  ).toBe(3);
});

test('smaller ones made on the way are those made by themselves, and the picture is the same with and without', () => {
  const mosaic: Mosaic = {
    ...neutralScene(64, 48, (row, column) => Math.abs(Math.sin(row * 1.3 + column * 0.7))),
    orientation: 8,
  };
  const look = compileLook(defaultLook);
  const { picture, smaller } = renderMosaic(mosaic, look, 'half', [20, 7, 4000]);
  expect(picture).toEqual(renderMosaic(mosaic, look, 'half').picture);
  const alone = [20, 7].map((longEdgePx) => renderMosaic(mosaic, look, { longEdgePx }).picture);
  expect(smaller).toEqual([...alone, picture]);
});

test('linear output puts the first saturated channel at 65,535 and keeps neutrals neutral in every space', () => {
  const mosaic = neutralScene(4, 4, () => Math.SQRT2 / 2);
  for (const space of ['srgb', 'rec2020', 'romm'] as const) {
    for (const size of ['half', 'full'] as const) {
      for (const value of linearMosaic(mosaic, space, size).picture.data) {
        expect(Math.abs(value / 65_535 - 0.5)).toBeLessThan(3e-4);
      }
    }
  }
  const full = linearMosaic(
    neutralScene(4, 4, () => 3),
    'srgb',
    'half',
  ).picture.data;
  expect([...full].every((value) => value === 65_535)).toBe(true);
});

test('a camera whose colours are not known is shown all the same, and the answer says so', () => {
  const mosaic = { ...neutralScene(4, 4, () => 0.18), xyzToCamera: null };
  const { picture, issues } = renderMosaic(mosaic, compileLook(neutralLook), 'half');
  expect(issues).toEqual([{ code: 'develop.no-camera-matrix', args: {} }]);
  expect(Math.abs((picture.data[0] ?? 0) - 117.6)).toBeLessThan(1.1);
});

test('a strongly lit orange keeps its hue as it brightens, and ends in white', () => {
  // The channels' places between smallest and largest (hue in linear light) at 0 and +2 EV.
  const hueOf = (gain: number): number => {
    const mosaic = colouredScene([0.5 * gain, 0.25 * gain, 0.08 * gain]);
    const { picture } = renderMosaic(mosaic, compileLook(defaultLook), 'half');
    const [r = 0, g = 0, b = 0] = [...picture.data.subarray(0, 3)].map((code) =>
      rgbSpaces.srgb.transfer.decode(code / 255),
    );
    return (g - b) / (r - b);
  };
  expect(Math.abs(hueOf(1) - hueOf(2.5))).toBeLessThan(0.06);
  const white = renderMosaic(colouredScene([40, 20, 6]), compileLook(defaultLook), 'half').picture.data;
  expect(Math.min(...white)).toBeGreaterThan(240);
});

/** A flat colour in a camera that sees as sRGB. */
function colouredScene([r, g, b]: readonly [number, number, number]): Mosaic {
  const rgb = [r, g, b];
  const filters = [0, 1, 1, 2] as const;
  return {
    values: Uint16Array.from({ length: 16 }, (_, index) => {
      const filter = filters[(Math.floor(index / 4) % 2) * 2 + (index % 2)] ?? 1;
      return Math.min(16_383, Math.round(((rgb[filter] ?? 0) / Math.SQRT2) * 16_383));
    }),
    widthPx: 4,
    heightPx: 4,
    filters,
    blackLevels: [0, 0, 0, 0],
    whiteLevel: 16_383,
    asShotMultipliers: [1, 1, 1],
    xyzToCamera: rgbSpaces.srgb.fromXyz,
    orientation: 1,
    baselineExposureEv: 0.5,
  };
}
