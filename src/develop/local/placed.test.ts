import { expect, test } from 'vitest';
import { rgbSpaces } from '../../colour/index.ts';
import { type Rgb8, storedPosition } from '../../image/index.ts';
import { compileLook, type LookInput, lookSchema } from '../../look/index.ts';
import { renderMosaic } from '../render.ts';
import { madeMosaic } from '../testing/photo-mosaic.ts';
import { uprightToStored } from './plan-placed.ts';

const compiled = (geometry: LookInput['geometry']) =>
  compileLook(lookSchema.parse({ version: 2, title: 'Placed', geometry }));

function lightAt({ data, widthPx }: Rgb8, row: number, column: number): number {
  return rgbSpaces.srgb.transfer.decode((data[(row * widthPx + column) * 3 + 1] ?? 0) / 255);
}

/** Where each row goes from dark to light: the dark part's width, to a fraction of a pixel. */
function edgesOf(picture: Rgb8, fromColumn: number, toColumn: number, dark: number, light: number): number[] {
  return Array.from({ length: picture.heightPx }, (_, row) => {
    let sum = 0;
    for (let x = fromColumn; x < toColumn; x++) sum += (light - lightAt(picture, row, x)) / (light - dark);
    return fromColumn + sum;
  });
}

function spread(values: readonly number[]): number {
  return Math.max(...values) - Math.min(...values);
}

/** A soft edge through a place, `lean` columns to the right per row down; dark at its left. */
function leaning(throughX: number, throughY: number, lean: number): (row: number, column: number) => number {
  return (row, column) => {
    const distance = column + 0.5 - throughX - (row + 0.5 - throughY) * lean;
    return 0.1 + 0.6 / (1 + Math.exp(-1.5 * distance));
  };
}

test('an edge that leans by 5 degrees is straight and upright once it is turned by 5', () => {
  const lean = Math.tan((5 * Math.PI) / 180);
  const mosaic = madeMosaic(300, 200, leaning(150, 100, lean));
  const { picture } = renderMosaic(mosaic, compiled({ straightenDeg: 5 }), 'full');
  const edges = edgesOf(picture, 40, picture.widthPx - 40, 0.1, 0.7);
  // A tenth of a pixel over 170 rows is a thirtieth of a degree.
  expect(spread(edges)).toBeLessThan(0.1);
  // The place turned about, the picture's middle, stays the middle; what codes round is the same way off in every column.
  expect(Math.abs((edges[Math.floor(edges.length / 2)] ?? 0) - picture.widthPx / 2)).toBeLessThan(0.2);
  const plain = renderMosaic(mosaic, compiled({}), 'full').picture;
  expect(spread(edgesOf(plain, 40, plain.widthPx - 40, 0.1, 0.7))).toBeGreaterThan(15);
});

test('two edges that lean towards each other are both upright once they are levelled', () => {
  const [left, right] = [leaning(100, 100, 0.12), leaning(220, 100, -0.1)];
  const mosaic = madeMosaic(320, 200, (row, column) => left(row, column) + 0.1 - right(row, column) + 0.6);
  const lines: NonNullable<LookInput['geometry']>['lines'] = [
    [(100 - 12) / 320, 0, (100 + 12) / 320, 1],
    [(220 + 10) / 320, 0, (220 - 10) / 320, 1],
  ];
  const { picture, issues } = renderMosaic(mosaic, compiled({ lines }), 'full');
  expect(issues).toEqual([]);
  const middle = Math.floor(picture.widthPx / 2);
  // From 0.2 to 0.8 at the left edge, and down again at the right one.
  expect(spread(edgesOf(picture, 0, middle, 0.2, 0.8))).toBeLessThan(0.15);
  expect(spread(edgesOf(picture, middle, picture.widthPx, 0.2, 0.8))).toBeLessThan(0.15);
});

test('an even grey stays that grey to the last corner: no black comes in, and no kernel shows', () => {
  const mosaic = madeMosaic(90, 60, () => 0.18);
  for (const geometry of [
    { straightenDeg: 11 },
    { straightenDeg: -3, crop: { across: 1, down: 1, size: 0.7, centreX: 0, centreY: 0 } },
    {
      lines: [
        [0.2, 0.1, 0.28, 0.9],
        [0.8, 0.1, 0.7, 0.9],
      ],
    },
  ] as const) {
    const { picture } = renderMosaic(
      mosaic,
      compiled(structuredClone(geometry) as LookInput['geometry']),
      'full',
    );
    // IEC 61966-2-1: 18 % is code 117.6.
    for (const code of picture.data) expect(Math.abs(code - 117.6)).toBeLessThan(1.1);
  }
});

test('fine lines keep their contrast through a turn: nine tenths of it at a quarter of a cycle a pixel', () => {
  const wave = (row: number, column: number): number => {
    const along = (column + 0.5) * Math.cos(0.2) + (row + 0.5) * Math.sin(0.2);
    return 0.4 + 0.2 * Math.sin(2 * Math.PI * 0.25 * along);
  };
  const mosaic = madeMosaic(200, 140, wave);
  const swing = (picture: Rgb8): number => {
    const values: number[] = [];
    for (let row = 20; row < picture.heightPx - 20; row++)
      for (let x = 20; x < picture.widthPx - 20; x++) values.push(lightAt(picture, row, x));
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length);
  };
  const plain = renderMosaic(mosaic, compiled({}), 'full').picture;
  const turned = renderMosaic(mosaic, compiled({ straightenDeg: 7 }), 'full').picture;
  expect(swing(turned) / swing(plain)).toBeGreaterThan(0.9);
  expect(swing(turned) / swing(plain)).toBeLessThan(1.02);
});

test.each([1, 2, 3, 4, 5, 6, 7, 8] as const)(
  'places of the upright picture lie where its pixels lie, orientation %d',
  (orientation) => {
    const stored = { widthPx: 60, heightPx: 40 };
    const [a, b, c, d, e, f] = uprightToStored(stored, orientation);
    for (const [row, column] of [
      [0, 0],
      [7, 13],
      [39, 20],
    ] as const) {
      const [x, y] = [column + 0.5, row + 0.5];
      const expected = storedPosition(row, column, stored, orientation);
      expect([a * x + b * y + c, d * x + e * y + f]).toEqual([expected.column + 0.5, expected.row + 0.5]);
    }
  },
);
