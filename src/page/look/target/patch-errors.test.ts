import { expect, test } from 'vitest';
import { applyMatrix, linearRgbToRgb, rgbSpaces, type Vector3 } from '../../../colour/index.ts';
import type { TargetReadings } from '../../../contract/index.ts';
import { toHalves } from '../../../image/kernels/half-floats.ts';
import { lookSchema, neutralLook, unknownProfile } from '../../../look/index.ts';
import { patchErrors } from './patch-errors.ts';

/** sRGB codes of patches 1 to 6 as data sheets of 24-patch targets print them (from memory); only their order matters here. */
const published = ['#735244', '#c29682', '#627a9d', '#576c43', '#8580b1', '#67bdaa'];
const corners: TargetReadings['corners'] = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
];
const target = {
  corners,
  patches: published.map((hex, index) => ({
    patch: index + 1,
    published: hex,
    measured: null,
    deltaE00: null,
    deltaL: null,
    deltaC: null,
    saturatedPercent: 0,
  })),
};

/** A scene whose patches are lit exactly as they are published, in cells of 20 pixels. */
function sceneOf(hexes: readonly string[]): Parameters<typeof patchErrors>[0] {
  const [widthPx, heightPx] = [120, 80];
  const toWorking = linearRgbToRgb(rgbSpaces.srgb, rgbSpaces.rec2020);
  const light = new Float32Array(widthPx * heightPx * 3);
  for (let pixel = 0; pixel < widthPx * heightPx; pixel++) {
    const [row, column] = [Math.floor(pixel / widthPx / 20), Math.floor((pixel % widthPx) / 20)];
    const hex = (row === 0 ? hexes[column] : undefined) ?? '#000000';
    const code = (at: number): number =>
      rgbSpaces.srgb.transfer.decode(Number.parseInt(hex.slice(at, at + 2), 16) / 255);
    const rgb: Vector3 = [code(1), code(3), code(5)];
    light.set(applyMatrix(toWorking, rgb), pixel * 3);
  }
  const halves = new Uint16Array(light.length);
  toHalves(light, 0, light.length, halves, 0);
  return { widthPx, heightPx, halves };
}

test('patches that are lit as they are published have no error under the neutral look', () => {
  const patches = patchErrors(sceneOf(published), target, neutralLook, unknownProfile);
  expect(patches.map(({ patch }) => patch)).toEqual([1, 2, 3, 4, 5, 6]);
  for (const { deltaE00, shown, published: is } of patches) {
    // Half floats: 2^-12 of each channel.
    expect(deltaE00).toBeLessThan(0.1);
    expect(shown).toBe(is);
  }
});

test('two patches that changed places are the two that are far off', () => {
  const [one = '', two = '', ...others] = published;
  const patches = patchErrors(sceneOf([two, one, ...others]), target, neutralLook, unknownProfile);
  expect(patches.map(({ deltaE00 }) => deltaE00 > 10)).toEqual([true, true, false, false, false, false]);
});

test('a stop more light is told of every patch', () => {
  const brighter = lookSchema.parse({ version: 2, title: 'test', exposureEv: 1 });
  for (const { deltaE00 } of patchErrors(sceneOf(published), target, brighter, unknownProfile)) {
    expect(deltaE00).toBeGreaterThan(5);
  }
});
