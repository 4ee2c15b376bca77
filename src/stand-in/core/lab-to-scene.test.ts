import Color from 'colorjs.io';
import { expect, test } from 'vitest';
import { chartPatches } from './chart-patches.ts';
import { labToScene } from './lab-to-scene.ts';

test.each(chartPatches)(
  '$name reads the same in color.js 0.7.1 (Lab D50 to linear Rec.2020)',
  ({ labD50 }) => {
    const expected = new Color('lab', [...labD50]).to('rec2020-linear').coords;
    // Whites differ in the fifth decimal (ICC D50 against CSS's), so a ten-thousandth is as close as it gets.
    labToScene(labD50).forEach((value, k) => {
      expect(Math.abs(value - (expected[k] ?? Number.NaN))).toBeLessThan(2e-4);
    });
  },
);
