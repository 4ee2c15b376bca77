import { expect, test } from 'vitest';
import { rgbSpaces } from '../../colour/index.ts';
import { cutOut, type Rgb8, uprightSize } from '../../image/index.ts';
import { compileLook, type LookInput, lookSchema, placeOf } from '../../look/index.ts';
import { outputSpace } from '../output-space.ts';
import { renderMosaic } from '../render.ts';
import { renderOutput } from '../render-output.ts';
import { madeMosaic } from '../testing/photo-mosaic.ts';

type Parts = Partial<LookInput>;
const parsed = (parts: Parts) => lookSchema.parse({ version: 2, title: 'Local', ...parts });
const compiled = (parts: Parts) => compileLook(parsed(parts));

/** Lines, slopes and colours: something everywhere. */
const scene = (row: number, column: number, channel: number): number =>
  0.3 + 0.25 * Math.sin(row * 0.31 + channel) * Math.cos(column * 0.17) + (column > row * 1.3 ? 0.2 : 0);

const noise = { read: 60, shot: 3 };
const told = () => {
  const one = { readVariance: noise.read, shotPerValue: noise.shot };
  return [one, one, one, one] as const;
};

const everything: Parts = {
  falloffEv: 1.2,
  smoothing: { luma: 1.3, chroma: 2 },
  acutance: { widthPx: 1.5, strength: 1.5, gate: 1 },
  grain: { sizePx: 3, density: 0.05 },
};

const looks: readonly (readonly [string, Parts])[] = [
  ['falloff', { falloffEv: -1.5 }],
  ['smoothing', { smoothing: { luma: 1.3, chroma: 2 } }],
  ['acutance', { acutance: { widthPx: 5, strength: 2, gate: 0.5 } }],
  ['grain', { grain: { sizePx: 6, density: 0.1 } }],
  ['a turn', { geometry: { straightenDeg: 8 } }],
  [
    'two lines',
    {
      geometry: {
        lines: [
          [0.25, 0.1, 0.3, 0.9],
          [0.8, 0.1, 0.7, 0.9],
        ],
      },
    },
  ],
  [
    'all of it',
    { ...everything, geometry: { straightenDeg: -4, flip: 'left-right', crop: { across: 5, down: 4 } } },
  ],
];

/** Wider than a tile, higher than a band. */
const wide = madeMosaic(640, 500, scene, noise, 1);
const turned = madeMosaic(560, 420, scene, noise, 6);

test.each(looks)('with %s, a region is the part of the whole, to the code', (_, parts) => {
  const look = compiled(parts);
  for (const mosaic of [wide, turned]) {
    const full = renderMosaic(mosaic, look, 'full', [], told).picture;
    const { widthPx, heightPx } = full;
    for (const region of [
      { leftPx: 3, topPx: 6, widthPx: 41, heightPx: 29 },
      { leftPx: widthPx - 150, topPx: heightPx - 90, widthPx: 150, heightPx: 90 },
      { leftPx: Math.floor(widthPx / 2), topPx: 301, widthPx: 100, heightPx: 100 },
    ]) {
      const inside = { ...region, heightPx: Math.min(region.heightPx, heightPx - region.topPx) };
      expect(renderMosaic(mosaic, look, { region: inside }, [], told).picture).toEqual(cutOut(full, inside));
    }
  }
});

test('a look whose local parts do next to nothing gives the picture that the plain way gives', () => {
  const plain = renderMosaic(wide, compiled({}), 'full').picture;
  const next = renderMosaic(wide, compiled({ falloffEv: 1e-9 }), 'full').picture;
  // Bytes are encoded by another kernel, which rounds otherwise in a few samples of a million (simd/README.md).
  expect(furthest(plain, next)).toBeLessThanOrEqual(1);
  expect(share(plain, next)).toBeLessThan(1e-3);
});

test.each(['half', 'full', { longEdgePx: 200 }, { longEdgePx: 400 }] as const)(
  'at size %j the picture has the size of the frame, and smaller ones made on the way are those made by themselves',
  (size) => {
    const look = compiled(everything);
    const { picture, smaller, full } = renderMosaic(turned, look, size, [120], told);
    const plain = renderMosaic(turned, compiled({}), size);
    expect([picture.widthPx, picture.heightPx]).toEqual([plain.picture.widthPx, plain.picture.heightPx]);
    expect(full).toEqual(uprightSize(turned, 6));
    expect(smaller[0]).toMatchObject({ widthPx: 90, heightPx: 120 });
  },
);

test('sizes of a picture with geometry are those of the picture placed', () => {
  const geometry = { straightenDeg: 5, crop: { across: 4, down: 5, size: 0.8 } };
  const { widthPx, heightPx } = placeOf(parsed({ geometry }).geometry, 420, 560);
  const look = compiled({ geometry });
  expect(renderMosaic(turned, look, 'full').picture).toMatchObject({ widthPx, heightPx });
  expect(renderMosaic(turned, look, 'full').full).toEqual({ widthPx, heightPx });
  expect(renderMosaic(turned, look, 'half').picture).toMatchObject({
    widthPx: widthPx >> 1,
    heightPx: heightPx >> 1,
  });
  expect(renderMosaic(turned, look, { longEdgePx: 100 }).picture.heightPx).toBe(100);
  expect(renderMosaic(turned, look, { longEdgePx: 9000 }).picture.heightPx).toBe(heightPx);
});

test.each([1, 2, 3, 4, 5, 6, 7, 8] as const)(
  'a crop and a flip of an original of orientation %d are its own pixels, upright',
  (orientation) => {
    const mosaic = madeMosaic(62, 40, scene, null, orientation);
    const whole = renderMosaic(mosaic, compiled({ falloffEv: 1e-9 }), 'full').picture;
    const geometry = {
      flip: 'left-right',
      crop: { across: 1, down: 1, size: 0.5, centreX: 0.4, centreY: 0.6 },
    } as const;
    const placing = placeOf(parsed({ geometry }).geometry, whole.widthPx, whole.heightPx);
    const { picture } = renderMosaic(mosaic, compiled({ geometry }), 'full');
    for (let row = 0; row < picture.heightPx; row++) {
      for (let column = 0; column < picture.widthPx; column++) {
        const x = whole.widthPx - 1 - (placing.crop.leftPx + column);
        const from = ((placing.crop.topPx + row) * whole.widthPx + x) * 3;
        const at = (row * picture.widthPx + column) * 3;
        expect([...picture.data.subarray(at, at + 3)]).toEqual([...whole.data.subarray(from, from + 3)]);
      }
    }
  },
);

test.each([
  ['a turn', { straightenDeg: 6 }],
  ['two lines', { lines: looks[5]?.[1].geometry?.lines }],
])('half size with local parts and %s is full size with them, reduced', (_, geometry) => {
  const smooth = (row: number, column: number, channel: number): number =>
    0.3 + 0.2 * Math.sin(row * 0.05 + channel) * Math.cos(column * 0.04);
  const mosaic = madeMosaic(600, 400, smooth);
  const look = compiled({
    falloffEv: 1.5,
    acutance: { widthPx: 3, strength: 1, gate: 0 },
    geometry,
  });
  const half = renderMosaic(mosaic, look, 'half', [], told).picture;
  const full = renderMosaic(mosaic, look, 'full', [], told).picture;
  let sum = 0;
  for (let row = 0; row < half.heightPx; row++) {
    for (let column = 0; column < half.widthPx; column++) {
      const light = [0, 1].flatMap((y) => [0, 1].map((x) => greenAt(full, 2 * row + y, 2 * column + x)));
      sum += Math.abs(greenAt(half, row, column) - light.reduce((total, value) => total + value, 0) / 4);
    }
  }
  // A third of a code: what rounding to codes alone makes of it.
  expect(sum / (half.widthPx * half.heightPx)).toBeLessThan(0.004);
});

test('the corner gets its stops, the middle none: 18 % grey at the middle, twice that at the corner', () => {
  const mosaic = madeMosaic(301, 201, () => 0.18);
  const { picture } = renderMosaic(mosaic, compiled({ falloffEv: 1 }), 'full');
  // IEC 61966-2-1: 18 % is code 117.6, 36 % is 162.2; the corner pixel's middle lies just inside the corner.
  expect(Math.abs(greenCode(picture, 100, 150) - 117.6)).toBeLessThan(1.1);
  expect(Math.abs(greenCode(picture, 0, 0) - 162)).toBeLessThan(1.6);
  // cos^4 of 45 degrees is a quarter, 2 EV; half way to that corner it is 0.8^2 (1 / (1 + 0.25))^2 = 0.64 (by hand).
  const two = renderMosaic(mosaic, compiled({ falloffEv: 2 }), 'full').picture;
  const expected = 255 * rgbSpaces.srgb.transfer.encode(0.18 / 0.64);
  expect(Math.abs(greenCode(two, 50, 75) - expected)).toBeLessThan(1.6);
});

test('where noise cannot be told, nothing is smoothed, and it is said', () => {
  const look = compiled({ smoothing: { luma: 2, chroma: 2 } });
  const { picture, issues } = renderMosaic(wide, look, 'full', [], () => null);
  expect(issues).toEqual([{ code: 'develop.noise-unknown', args: {} }]);
  expect(furthest(picture, renderMosaic(wide, compiled({}), 'full').picture)).toBeLessThanOrEqual(1);
});

test('lines that cannot be levelled are said', () => {
  const lines = [
    [0.2, 0.1, 0.6, 0.9],
    [0.8, 0.1, 0.4, 0.9],
  ] as [[number, number, number, number], [number, number, number, number]];
  expect(renderMosaic(wide, compiled({ geometry: { lines } }), { longEdgePx: 50 }).issues).toEqual([
    { code: 'look.lines-too-steep', args: {} },
  ]);
});

function greenCode({ data, widthPx }: Rgb8, row: number, column: number): number {
  return data[(row * widthPx + column) * 3 + 1] ?? Number.NaN;
}

function greenAt(picture: Rgb8, row: number, column: number): number {
  return rgbSpaces.srgb.transfer.decode(greenCode(picture, row, column) / 255);
}

function furthest(one: Rgb8, other: Rgb8): number {
  expect(one.data.length).toBe(other.data.length);
  return one.data.reduce((most, code, i) => Math.max(most, Math.abs(code - (other.data[i] ?? 0))), 0);
}

function share(one: Rgb8, other: Rgb8): number {
  return one.data.filter((code, i) => code !== other.data[i]).length / one.data.length;
}

test('a picture in another space and depth has the same local parts', () => {
  const parts = { ...everything, geometry: { straightenDeg: -4 } };
  const screen = renderMosaic(turned, compiled(parts), 'half', [], told);
  const output = renderOutput(turned, compiled(parts), 'half', outputSpace('srgb', 8), told);
  expect(output.full).toEqual(screen.full);
  expect([output.picture.widthPx, output.picture.heightPx]).toEqual([
    screen.picture.widthPx,
    screen.picture.heightPx,
  ]);
  // Colours that sRGB holds come out the same; the scene has hardly any other. Resampling held at 0 … 1 of other primaries,
  // and grain on another luminance, differ by a code or two.
  const off = screen.picture.data.map((code, i) => Math.abs(code - (output.picture.data[i] ?? 0)));
  expect(off.reduce((sum, value) => sum + value, 0) / off.length).toBeLessThan(0.5);
});
