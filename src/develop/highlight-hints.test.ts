import { expect, test } from 'vitest';
import { applyMatrix, rgbSpaces, type Vector3, xyzToOklab } from '../colour/index.ts';
import type { Mosaic } from '../facts/index.ts';
import { cutOut } from '../image/index.ts';
import { compileLook, defaultLook } from '../look/index.ts';
import { findHighlightHints } from './highlight-hints.ts';
import { planDevelop } from './plan.ts';
import { renderMosaic } from './render.ts';
import { sceneMosaic } from './scene.ts';

const edge = 240;
const daylight = [2.1, 1, 1.6] as const;
const tungsten = [1, 1.1, 2.6] as const;

/** What a camera with sRGB's primaries and these multipliers sees of balanced light, cut where its sensor ends. */
function mosaicOf(light: (row: number, column: number) => Vector3, multipliers: Vector3): Mosaic {
  const filters = [0, 1, 1, 2] as const;
  const least = Math.min(...multipliers);
  const values = Uint16Array.from({ length: edge * edge }, (_, i) => {
    const [row, column] = [Math.floor(i / edge), i % edge];
    const filter = filters[(row % 2) * 2 + (column % 2)] ?? 1;
    const share = (light(row, column)[filter] * least) / multipliers[filter];
    return Math.min(16_383, Math.round(512 + share * (16_383 - 512)));
  });
  return {
    values,
    widthPx: edge,
    heightPx: edge,
    filters,
    blackLevels: [512, 512, 512, 512],
    whiteLevel: 16_383,
    asShotMultipliers: multipliers,
    xyzToCamera: rgbSpaces.srgb.fromXyz,
    orientation: 1,
    baselineExposureEv: 0.5,
  };
}

/** A glow of one colour that rises evenly to four times saturation in the middle. */
function glow(colour: Vector3): (row: number, column: number) => Vector3 {
  return (row, column) => {
    const distance = Math.hypot(row - edge / 2, column - edge / 2) / (edge / 2);
    const level = 4 * Math.exp(-5 * distance * distance);
    return [colour[0] * level, colour[1] * level, colour[2] * level];
  };
}

/** a and b of Oklab over L: what of colour does not change with brightness. */
function tintOf(rgb: Vector3): readonly [number, number] {
  const [lightness, a, b] = xyzToOklab(applyMatrix(rgbSpaces.rec2020.toXyz, rgb));
  return [a / lightness, b / lightness];
}

function tintAt(picture: ReturnType<typeof sceneMosaic>['picture'], row: number, column: number) {
  const at = (row * picture.widthPx + column) * 3;
  const [r = 0, g = 0, b = 0] = picture.data.subarray(at, at + 3);
  return tintOf([r, g, b]);
}

/** Hue in degrees. */
function hueOf([a, b]: readonly [number, number]): number {
  return (Math.atan2(b, a) * 180) / Math.PI;
}

const colours: readonly (readonly [string, Vector3])[] = [
  ['green', [0.5, 0.6, 0.4]],
  ['orange', [1, 0.6, 0.25]],
  ['skin', [1, 0.72, 0.6]],
  ['a lamp in daylight', [1.6, 0.9, 0.35]],
  ['sky', [0.5, 0.7, 1]],
  ['magenta', [0.8, 0.4, 0.7]],
  ['yellow', [0.9, 0.9, 0.4]],
  ['cyan', [0.4, 0.8, 0.9]],
];

const glows = colours.flatMap(([name, colour]) =>
  [daylight, tungsten].map((multipliers) => [name, colour, multipliers] as const),
);

test.each(glows)(
  'a glow of %s keeps its hue on its way to white, balance %j %j',
  (_, colour, multipliers) => {
    const mosaic = mosaicOf(glow(colour), multipliers);
    const { picture } = sceneMosaic(mosaic, 'half');
    const wanted = tintOf(applyMatrix(planDevelop(mosaic).toWorking, colour));
    const full = Math.hypot(...wanted);
    for (let column = 20; column < edge / 2 - 20; column++) {
      const found = tintAt(picture, edge / 4, column);
      const turn = Math.abs(((hueOf(found) - hueOf(wanted) + 540) % 360) - 180);
      // Degrees count by how much colour is left to be seen: nearly white has any hue. From the pixel alone: 43 at the worst.
      expect(turn * Math.min(1, Math.hypot(...found) / full)).toBeLessThan(5);
    }
  },
);

test.each([
  ['orange', [1, 0.6, 0.25], tungsten],
  ['skin', [1, 0.72, 0.6], tungsten],
  ['skin', [1, 0.72, 0.6], daylight],
  ['strong green', [0.3, 0.6, 0.3], daylight],
  ['yellow', [0.9, 0.9, 0.4], tungsten],
] as const)('a white window beside a bright wall of %s stays white (%j, %j)', (_, wall, multipliers) => {
  const least = Math.min(...multipliers);
  const level = 0.85 * Math.min(...wall.map((value, i) => (multipliers[i] ?? 1) / least / value));
  for (const window of [1.1, 1.2, 1.4, 1.7, 2, 2.4]) {
    const mosaic = mosaicOf(
      (row, column) =>
        column < edge / 2
          ? [wall[0] * level, wall[1] * level, wall[2] * level]
          : [window + row * 1e-4, window + row * 1e-4, window + row * 1e-4],
      multipliers,
    );
    const { picture } = sceneMosaic(mosaic, 'half');
    for (const column of [64, 70, 90, 110]) {
      // The least chroma that anybody sees beside white, about.
      expect(Math.hypot(...tintAt(picture, edge / 4, column))).toBeLessThan(0.005);
    }
  }
});

test('a frame that lost nothing has no hints, nor has one of which nothing fits', () => {
  const find = (light: (row: number, column: number) => Vector3) => {
    const mosaic = mosaicOf(light, daylight);
    return findHighlightHints(mosaic, planDevelop(mosaic).bin);
  };
  expect(find(() => [0.5, 0.5, 0.5])).toBeNull();
  expect(find(() => [1.5, 1.5, 1.5])).toBeNull();
  expect(find(glow([0.5, 0.6, 0.4]))).not.toBeNull();
});

test.each([1, 6] as const)(
  'a region of a lost highlight is the part of the whole, to the code (orientation %d)',
  (orientation) => {
    const mosaic: Mosaic = { ...mosaicOf(glow([1, 0.72, 0.6]), tungsten), orientation };
    for (const look of [defaultLook, { ...defaultLook, falloffEv: 0.5 }]) {
      const compiled = compileLook(look);
      const full = renderMosaic(mosaic, compiled, 'full').picture;
      const region = { leftPx: 61, topPx: 83, widthPx: 87, heightPx: 65 };
      expect(renderMosaic(mosaic, compiled, { region }).picture).toEqual(cutOut(full, region));
    }
  },
);
