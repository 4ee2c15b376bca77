import { expect, test } from 'vitest';
import { rgbSpaces } from '../../colour/index.ts';
import type { LensCorrections, LensWarp, Mosaic } from '../../facts/index.ts';
import type { Rgb8 } from '../../image/index.ts';
import { compileLook, type LookInput, lookSchema } from '../../look/index.ts';
import { renderMosaic } from '../render.ts';
import { madeMosaic } from '../testing/photo-mosaic.ts';

const [widthPx, heightPx] = [320, 240];
/** Half a per cent of barrel, as WarpRectilinear (DNG 1.7.1, chapter 7) states it. */
const barrel: LensWarp = {
  kind: 'warp',
  centre: [0.5, 0.5],
  planes: [{ radial: [0.97, 0, 0.02, 0, 0], tangential: [0, 0], range: [0, 9], isReciprocal: false }],
};
const lens: LensCorrections = {
  area: { widthPx, heightPx },
  leftPx: 0,
  topPx: 0,
  samples: [],
  steps: [barrel],
};

const compiled = (look: Partial<LookInput>) =>
  compileLook(lookSchema.parse({ version: 2, title: 'Turned', ...look }));
const turned = { straightenDeg: 3 };
const oneStep = compiled({ geometry: turned });
/** A falloff too small to change a code: it is worked on where the sensor's pixels lie, so there are two resamplings. */
const twoSteps = compiled({ geometry: turned, falloffEv: 1e-9 });

/** Edges that nearly stand upright, so blurred by the optics: the less, the sharper. A code of 8 bits is a thirtieth of a pixel at 1.5. */
function edges(sigmaPx: number): Mosaic {
  const light = (row: number, column: number): number => {
    const at = ((column + row * 0.05) % 80) - 40;
    const wave = Math.abs(at) - 20;
    return 0.15 + 0.6 / (1 + Math.exp(-wave / (sigmaPx * 0.55)));
  };
  return { ...madeMosaic(widthPx, heightPx, light), lens };
}

const greenAt = ({ data, widthPx: wide }: Rgb8, row: number, column: number): number =>
  rgbSpaces.srgb.transfer.decode((data[(row * wide + column) * 3 + 1] ?? 0) / 255);

/** Where a row crosses a level, and how far apart it crosses 10 % and 90 % of the way around there; pixels. */
function crossings(picture: Rgb8, row: number): { readonly at: number; readonly width: number }[] {
  const found: { at: number; width: number }[] = [];
  const place = (from: number, level: number, step: 1 | -1): number => {
    for (let x = from; x > 2 && x < picture.widthPx - 3; x += step) {
      const [a, b] = [greenAt(picture, row, x), greenAt(picture, row, x + 1)];
      if ((a - level) * (b - level) <= 0 && a !== b) return x + (level - a) / (b - a);
    }
    return Number.NaN;
  };
  for (let x = 12; x < picture.widthPx - 12; x++) {
    const [a, b] = [greenAt(picture, row, x), greenAt(picture, row, x + 1)];
    if ((a - 0.45) * (b - 0.45) > 0) continue;
    const rising = b > a;
    const low = place(x, 0.21, rising ? -1 : 1);
    const high = place(x, 0.69, rising ? 1 : -1);
    found.push({ at: x + (0.45 - a) / (b - a), width: Math.abs(high - low) });
    x += 6;
  }
  return found;
}

function measured(sigmaPx: number) {
  const mosaic = edges(sigmaPx);
  const [one, two] = [oneStep, twoSteps].map((look) => renderMosaic(mosaic, look, 'full').picture);
  if (one === undefined || two === undefined) throw new Error('both are rendered');
  expect([one.widthPx, one.heightPx]).toEqual([two.widthPx, two.heightPx]);
  const offs: number[] = [];
  const widths: [number, number][] = [];
  for (let row = 8; row < one.heightPx - 8; row += 3) {
    const [own, other] = [crossings(one, row), crossings(two, row)];
    expect(own.length).toBe(other.length);
    own.forEach(({ at, width }, index) => {
      offs.push(Math.abs(at - (other[index]?.at ?? Number.NaN)));
      widths.push([width, other[index]?.width ?? Number.NaN]);
    });
  }
  const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;
  const clean = widths.filter((pair) => pair.every(Number.isFinite));
  return {
    count: offs.length,
    worstOff: Math.max(...offs),
    oneWidth: mean(clean.map(([own]) => own)),
    twoWidth: mean(clean.map(([, other]) => other)),
  };
}

test('through lens and geometry at once a smooth chart lies where it lies through one after the other, within 0.05 px', () => {
  const { count, worstOff } = measured(1.5);
  expect(count).toBeGreaterThan(200);
  expect(worstOff).toBeLessThan(0.05);
});

test('edges are sharper through one resampling than through two', () => {
  const { oneWidth, twoWidth } = measured(0.3);
  // Measured: 1.50 px from 10 % to 90 % against 1.58.
  expect(oneWidth).toBeLessThan(twoWidth * 0.97);
});

test('a region is the part of the whole, to the code, at full and at half size', () => {
  const mosaic = edges(0.5);
  const whole = renderMosaic(mosaic, oneStep, 'full').picture;
  const region = { leftPx: 61, topPx: 37, widthPx: 90, heightPx: 50 };
  const part = renderMosaic(mosaic, oneStep, { region }).picture;
  for (let row = 0; row < region.heightPx; row++) {
    const start = ((row + region.topPx) * whole.widthPx + region.leftPx) * 3;
    const length = region.widthPx * 3;
    expect(part.data.subarray(row * length, (row + 1) * length)).toEqual(
      whole.data.subarray(start, start + length),
    );
  }
});
